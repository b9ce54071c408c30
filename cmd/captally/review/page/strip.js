// The whole session as one strip, to scale. It is a picture for the eye and the pointer; the tables beneath say the same and
// are the way for the keyboard and for a screen reader.
import { find, make, redraw } from './dom.js';

const mostLanes = 3; // of flags, one above the other

const kinds = ['warm-up', 'work', 'balance', 'rest', 'cool-down', 'talk'];
const causes = { session: 'in the session', unsure: 'for you to tell', captions: 'in the captions only' };

/** The sign of a finding: by its cause, and whether it is settled. */
export const sign = (f) => make('span', { class: `flag ${f.cause}${f.settled ? ' settled' : ''}`, aria: { hidden: 'true' } }, f.settled ? '✓' : { session: '!', unsure: '?', captions: 'c' }[f.cause]);

const [flags, phases, ticks] = ['flags', 'phases', 'ticks'].map((name) => make('div', { class: name }));
const here = make('span', { class: 'moment', hidden: true });
const strip = make('div', { class: 'strip', role: 'img' }, flags, make('div', { class: 'scale' }, phases, here), ticks);
find('strip').append(strip);
let state;
let open = '';

/** Marks a moment on the strip, in seconds. */
export function markMoment(seconds) {
  here.hidden = !state;
  if (state) here.style.left = share(seconds);
}

/** Marks the flag of the finding that is open, by its key. */
export function markFinding(key) {
  flags.querySelector('.open')?.classList.remove('open');
  open = key;
  flags.querySelector(`[data-flag="${CSS.escape(key)}"]`)?.classList.add('open');
}

const share = (s) => `${Math.min(100, Math.max(0, (100 * s) / state.duration_s))}%`;

/** Gives flags that would lie on each other lanes of their own. Where a flag would find none free, it overlaps. */
function stack() {
  if (!state || !flags.clientWidth) return;
  const width = (flags.firstElementChild?.offsetWidth ?? 0) + 2;
  const ends = [];
  for (const e of [...flags.children].sort((a, b) => a.dataset.at - b.dataset.at)) {
    const x = (e.dataset.at / state.duration_s) * flags.clientWidth;
    let lane = ends.findIndex((end) => end <= x);
    if (lane < 0) lane = ends.length < mostLanes ? ends.length : 0;
    ends[lane] = x + width;
    if (e.dataset.lane !== `${lane}`) {
      e.dataset.lane = lane;
      e.style.setProperty('--lane', lane);
    }
  }
  flags.style.setProperty('--lanes', Math.max(1, ends.length));
}
new ResizeObserver(stack).observe(flags);

/** Draws the strip with these findings; go(seconds) is called with the moment that was pointed at, show(key) with the finding. */
export function drawStrip(now, findings, go, show) {
  if (state?.id !== now.id) here.hidden = true;
  state = now;
  const place = (e, start, end) => {
    e.style.left = share(start);
    if (end !== undefined) e.style.width = share(end - start);
    return e;
  };
  strip.setAttribute('aria-label', state.strip_text);
  redraw(phases, state.phases, (p) => place(make('span', { class: `phase ${p.kind}`, title: p.text, onclick: () => go(p.start_s) }, make('span', {}, p.mark ?? '')), p.start_s, p.end_s));
  redraw(flags, findings.map(({ key, cause, settled, clock, text, at_s }) => ({ key, cause, settled, clock, text, at_s })), (f) => flag(f, show));
  markFinding(open);
  stack();
  redraw(ticks, state.ticks, (t) => place(make('span', { class: 'tick' }, t.text), t.at_s));
  drawLegend(findings);
}

function flag(f, show) {
  const e = sign(f);
  e.title = `${f.clock} ${f.text}`;
  e.addEventListener('click', () => show(f.key));
  Object.assign(e.dataset, { flag: f.key, at: f.at_s });
  e.style.left = `clamp(.65rem, ${share(f.at_s)}, calc(100% - .65rem))`;
  return e;
}

function drawLegend(findings) {
  const there = kinds.filter((k) => state.phases.some((p) => p.kind === k));
  const found = Object.keys(causes).filter((c) => findings.some((f) => f.cause === c && !f.settled));
  find('legend').replaceChildren(
    ...there.map((k) => make('li', {}, make('span', { class: `swatch phase ${k}`, aria: { hidden: 'true' } }), k)),
    ...found.map((c) => make('li', {}, sign({ cause: c }), `to settle, ${causes[c]}`)),
  );
}
