// The tables of sets and rests, and the sums.
import { button, find, make } from './dom.js';

const cells = (tag, texts) => texts.map((t) => make(tag, tag === 'th' ? { scope: 'col' } : {}, t));

/** Two lines of one cell: a figure and, smaller, its limits. */
const figure = (value, limits) => make('td', { class: 'figure' }, value || '–', limits && make('span', { class: 'limits' }, limits));

/** Draws the tables. go(seconds) shows a moment, change(set) and changePart(part) open a form. */
export function drawTables(state, go, change, changePart) {
  find('totals').replaceChildren(...state.totals.map((t) => make('div', {}, make('dt', {}, t.name), make('dd', {}, t.value))));
  find('sets').replaceChildren(
    make('thead', {}, make('tr', {}, ...cells('th', ['No.', 'Time', 'Exercise', 'Side', 'Announced', 'Done', 'Under tension', 'Pace, a rep', 'Change']))),
    make('tbody', {}, ...state.sets.map((s) => setRow(s, go, change))),
  );
  find('rests').replaceChildren(
    make('thead', {}, make('tr', {}, ...cells('th', ['Time', 'After set', 'Announced', 'Given', 'Kept?']))),
    make('tbody', {}, ...state.rests.map((r) => restRow(r, go))),
  );
  find('phases').replaceChildren(
    make('thead', {}, make('tr', {}, ...cells('th', ['Part', 'Time', 'Until', 'Change']))),
    make('tbody', {}, ...state.phases.filter((p) => !p.mark).map((p) => partRow(p, go, changePart))),
  );
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
