// The tables of sets and rests, and the sums.
import { button, find, make, redraw } from './dom.js';

/** Two lines of one cell: a figure and, smaller, its limits. */
const figure = (value, limits) => make('td', { class: 'figure' }, value || '–', limits && make('span', { class: 'limits' }, limits));

/** A table with its head; gives its body. */
function table(id, ...heads) {
  const body = make('tbody');
  find(id).replaceChildren(make('thead', {}, make('tr', {}, ...heads.map((t) => make('th', { scope: 'col' }, t)))), body);
  return body;
}

const sets = table('sets', 'No.', 'Time', 'Exercise', 'Side', 'Announced', 'Done', 'Under tension', 'Pace, a rep', 'Change');
const rests = table('rests', 'Time', 'After set', 'Announced', 'Given', 'Kept?');
const parts = table('phases', 'Part', 'Time', 'Until', 'Change');

/** Draws the tables. go(seconds) shows a moment, change(set) and changePart(part) open a form. */
export function drawTables(state, go, change, changePart) {
  redraw(find('totals'), state.totals, (t) => make('div', {}, make('dt', {}, t.name), make('dd', {}, t.value)));
  redraw(sets, state.sets, (s) => setRow(s, go, change));
  redraw(rests, state.rests, (r) => restRow(r, go));
  redraw(parts, state.phases.filter((p) => !p.mark), (p) => partRow(p, go, changePart));
}

function partRow(p, go, change) {
  return make('tr', {}, make('th', { scope: 'row' }, p.kind),
    make('td', {}, button(p.clock, `part-time-${p.key}`, () => go(p.start_s), { class: 'time', aria: { label: `Show the ${p.kind} at ${p.clock}` } })),
    make('td', {}, p.end_text), make('td', {}, button('Change', `part-change-${p.key}`, () => change(p), { aria: { label: `Change the ${p.kind} at ${p.clock}` } })));
}

function setRow(s, go, change) {
  const name = s.exercise || 'no name was said';
  return make('tr', { class: s.findings.length ? 'odd' : '' },
    make('td', {}, `${s.number}`),
    make('td', {}, button(s.clock, `set-time-${s.id}`, () => go(s.start_s), { class: 'time', aria: { label: `Show set ${s.number} at ${s.clock}` } })),
    make('th', { scope: 'row' }, name), make('td', {}, s.side || '–'), make('td', {}, s.announced || '–'),
    figure(s.done, s.range), figure(s.tension, s.within), make('td', { class: 'figure' }, s.pace || '–'),
    make('td', {}, button('Change', `set-change-${s.id}`, () => change(s), { aria: { label: `Change set ${s.number}, ${name}` } })));
}

function restRow(r, go) {
  return make('tr', { class: r.findings.length ? 'odd' : '' },
    make('th', { scope: 'row' }, button(r.clock, `rest-time-${r.id}`, () => go(r.start_s), { class: 'time', aria: { label: `Show the rest at ${r.clock}` } })),
    make('td', {}, r.after ? `${r.after}` : '–'), make('td', {}, r.announced || 'nothing said'), figure(r.given, r.range), make('td', {}, r.verdict || '–'));
}
