// The whole session as one strip, to scale. It is a picture for the eye and the pointer; the tables beneath say the same and
// are the way for the keyboard and for a screen reader.
import { find, make, redraw } from './dom.js';

const kinds = ['warm-up', 'work', 'balance', 'rest', 'cool-down', 'talk'];
const causes = { session: ['!', 'in the session'], unsure: ['?', 'cannot be told'], captions: ['c', 'in the captions only'] };

const [flags, phases, ticks] = ['flags', 'phases', 'ticks'].map((name) => make('div', { class: name }));
const strip = make('div', { class: 'strip', role: 'img' }, flags, phases, ticks);
find('strip').append(strip);

/** Draws the strip; go(seconds) is called with the moment that was pointed at. */
export function drawStrip(state, go) {
  const share = (s) => `${Math.min(100, Math.max(0, (100 * s) / state.duration_s))}%`;
  const place = (e, start, end) => {
    e.style.left = share(start);
    if (end !== undefined) e.style.width = share(end - start);
    return e;
  };
  strip.setAttribute('aria-label', state.strip_text);
  redraw(phases, state.phases, (p) => place(make('span', { class: `phase ${p.kind}`, title: p.text, onclick: () => go(p.start_s) }, p.mark ?? ''), p.start_s, p.end_s));
  redraw(flags, state.findings, (f) => place(make('span', {
    class: `flag ${f.cause}${f.settled ? ' settled' : ''}`, title: `${f.clock} ${f.text}`, onclick: () => go(f.play_s),
  }, f.settled ? '✓' : causes[f.cause][0]), f.at_s));
  redraw(ticks, state.ticks, (t) => place(make('span', { class: 'tick' }, t.text), t.at_s));
  drawLegend(state);
}

function drawLegend(state) {
  const there = kinds.filter((k) => state.phases.some((p) => p.kind === k));
  const found = Object.keys(causes).filter((c) => state.findings.some((f) => f.cause === c && !f.settled));
  find('legend').replaceChildren(
    ...there.map((k) => make('li', {}, make('span', { class: `swatch phase ${k}`, aria: { hidden: 'true' } }), k)),
    ...found.map((c) => make('li', {}, make('span', { class: `flag ${c}`, aria: { hidden: 'true' } }, causes[c][0]), `to settle, ${causes[c][1]}`)),
  );
}
