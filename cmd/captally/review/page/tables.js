// The tables of sets and rests, and the sums.
import { button, find, make, redraw } from './dom.js';
import { sign } from './strip.js';

/** A cell with a figure and, smaller, its limits. */
const figure = (value, limits) => make('td', { class: 'figure' }, value || '–', limits && make('span', { class: 'limits' }, ` (${limits})`));

/** A cell with a sign for each finding about the row, which opens it. */
const signs = (row, show) => make('td', {}, ...row.flags.map((f) => {
  const b = button('', `flag-${row.id}-${f.key}`, () => show(f.key), { class: 'bare', title: f.text, aria: { label: `${f.settled ? 'Settled' : 'To settle'}: ${f.text}${f.more ? ` And ${f.more} more.` : ''}` } });
  b.append(sign(f));
  return b;
}));

/** A table with its head; gives its body. */
function table(id, ...heads) {
  const body = make('tbody');
  find(id).replaceChildren(make('thead', {}, make('tr', {}, ...heads.map((t) => make('th', { scope: 'col' }, t)))), body);
  return body;
}

const sets = table('sets', 'No.', 'Time', 'Exercise', 'Side', 'Announced', 'Done', 'Under tension', 'Pace, a rep', 'Look at', 'Change');
const rests = table('rests', 'Time', 'After set', 'Announced', 'Given', 'Kept?', 'Look at');
const parts = table('phases', 'Part', 'Time', 'Until', 'Change');

/** Draws the tables. go(seconds) shows a moment, show(key) a finding; change(set) and changePart(part) open a form. */
export function drawTables(state, { go, show, change, changePart }) {
  redraw(find('totals'), state.totals, (t) => make('div', {}, make('dt', {}, t.name), make('dd', {}, t.value)));
  redraw(sets, state.sets, (s) => setRow(s, go, show, change));
  redraw(rests, state.rests, (r) => restRow(r, go, show));
  redraw(parts, state.phases.filter((p) => !p.mark), (p) => partRow(p, go, changePart));
}

function partRow(p, go, change) {
  return make('tr', {}, make('th', { scope: 'row' }, p.kind),
    make('td', {}, button(p.clock, `part-time-${p.key}`, () => go(p.start_s), { class: 'time', aria: { label: `Show the ${p.kind} at ${p.clock}` } })),
    make('td', {}, p.end_text), make('td', {}, button('Change', `part-change-${p.key}`, () => change(p), { class: 'quiet', aria: { label: `Change the ${p.kind} at ${p.clock}` } })));
}

function setRow(s, go, show, change) {
  const name = s.exercise || 'no name was said';
  return make('tr', {},
    make('td', {}, `${s.number}`),
    make('td', {}, button(s.clock, `set-time-${s.id}`, () => go(s.start_s), { class: 'time', aria: { label: `Show set ${s.number} at ${s.clock}` } })),
    make('th', { scope: 'row' }, name), make('td', {}, s.side || '–'), make('td', {}, s.announced || '–'),
    figure(s.done, s.range), figure(s.tension, s.within), make('td', { class: 'figure' }, s.pace || '–'), signs(s, show),
    make('td', {}, button('Change', `set-change-${s.id}`, () => change(s), { class: 'quiet', aria: { label: `Change set ${s.number}, ${name}` } })));
}

function restRow(r, go, show) {
  return make('tr', {},
    make('th', { scope: 'row' }, button(r.clock, `rest-time-${r.id}`, () => go(r.start_s), { class: 'time', aria: { label: `Show the rest at ${r.clock}` } })),
    make('td', {}, r.after ? `${r.after}` : '–'), make('td', {}, r.announced || 'nothing said'), figure(r.given, r.range), make('td', {}, r.verdict || '–'), signs(r, show));
}
