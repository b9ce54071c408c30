// The forms that change what was found: a set, a set that was missed, the number of repetitions.
// Times and numbers are sent as they were typed; the program reads them and says what is wrong with them.
import { find, focusOn, make } from './dom.js';

const dialog = find('dialog');
const form = dialog.querySelector('form');
const sides = [['', 'not said'], ['left', 'left'], ['right', 'right'], ['both', 'both at once'], ['alternate', 'by turns']];
let decide = async () => false;
let fault;
let opener;

/** decide(decision) stores a decision, draws its result and returns whether that worked; on failure it returns the reason. */
export function startForms(callback) {
  decide = callback;
}

function field(label, name, value, properties = {}) {
  const input = make('input', { type: 'text', name, id: `field-${name}`, value: value ?? '', autocomplete: 'off', ...properties });
  return make('div', {}, make('label', { htmlFor: input.id }, label), input);
}

function choice(label, name, value, options) {
  const select = make('select', { name, id: `field-${name}` }, ...options.map(([v, text]) => make('option', { value: v, selected: v === value }, text)));
  return make('div', {}, make('label', { htmlFor: select.id }, label), select);
}

/** Shows a form. Its main button sends what make(values) returns. */
function show(title, lead, fields, label, decision, ...more) {
  fault = make('p', { class: 'fault', role: 'alert' });
  const before = new Map();
  form.replaceChildren(
    make('h2', { id: 'dialog-title' }, title), lead && make('p', {}, lead), make('div', { class: 'fields' }, ...fields), fault,
    make('p', { class: 'controls' }, make('button', { type: 'submit', class: 'main' }, label), make('button', { type: 'button', onclick: () => dialog.close() }, 'Leave it as it is')),
    ...more,
  );
  for (const e of form.elements) if (e.name) before.set(e.name, e.value);
  form.onsubmit = (e) => {
    e.preventDefault();
    const changed = {};
    for (const [name, was] of before) if (form.elements[name].value !== was) changed[name] = form.elements[name].value.trim();
    send(decision(changed, Object.fromEntries([...before.keys()].map((n) => [n, form.elements[n].value.trim()]))));
  };
  opener = document.activeElement?.dataset?.key;
  dialog.showModal();
}

// What opened the form may have been drawn anew meanwhile: the focus goes to what has taken its place.
dialog.addEventListener('close', () => {
  if (opener && document.activeElement?.dataset?.key !== opener) focusOn(opener);
});

async function send(decision) {
  if (!decision) {
    dialog.close();
    return;
  }
  const wrong = await decide(decision);
  if (wrong) fault.textContent = wrong;
  else dialog.close();
}

const doseUnits = [['', 'nothing said'], ['reps', 'repetitions'], ['seconds', 'seconds']];

/** A number and its unit, under one label. */
function amount(label, name, value, unitName, unit, units) {
  const number = make('input', { type: 'text', name, id: `field-${name}`, value: value ?? '', autocomplete: 'off', inputMode: 'decimal' });
  const select = make('select', { name: unitName, id: `field-${unitName}`, aria: { label: `${label}, in` } }, ...units.map(([v, text]) => make('option', { value: v, selected: v === unit }, text)));
  return make('div', {}, make('label', { htmlFor: number.id }, label), make('div', { class: 'pair' }, number, select));
}

const announced = (s) => amount('Announced', 'dose', s?.dose, 'unit', s?.unit ?? '', doseUnits);
const done = (number, unit) => amount('Really done', 'done', number, 'done_unit', unit, doseUnits.slice(1));

/** The form of one set. */
export function changeSet(s, next) {
  const act = (text, what) => make('button', { type: 'button', onclick: () => send(what()) }, text);
  const more = make('div', { class: 'more' }, make('h3', {}, 'Is it not one set?'),
    make('div', { class: 'controls' }, field('It is two, the second from', 'split', s.middle_text), act('Split there', () => ({ set: s.key, split: form.elements.split.value.trim() }))),
    make('p', { class: 'controls' }, next && act(`Join it with set ${next.number}`, () => ({ set: s.key, join: true })),
      act('There was no such set: take it out', () => ({ set: s.key, remove: true }))));
  show(`Change set ${s.number}`, `${s.exercise || 'No name was said'}, at ${s.clock}. Change only what is wrong.`, [
    field('Exercise', 'exercise', s.exercise),
    s.exercise ? choice('A new name is for', 'everywhere', 'all', [['all', 'all sets of this exercise'], ['one', 'this set only']]) : '',
    announced(s), done(s.done_only, s.done_unit), field('Begins at', 'start', s.start_text), field('Ends at', 'end', s.end_text), choice('Side', 'side', s.side, sides),
  ], 'Keep the change', (changed, all) => setChange(s, changed, all), more);
}

/** What was changed of a set; nothing where everything was left. A dose, what was done and a name are sent whole. */
function setChange(s, changed, all) {
  delete changed.split;
  delete changed.everywhere;
  if (Object.keys(changed).length === 0) return null;
  if (changed.dose !== undefined || changed.unit !== undefined) Object.assign(changed, { dose: all.dose, unit: all.unit });
  if (changed.done !== undefined || changed.done_unit !== undefined) Object.assign(changed, { done: all.done, done_unit: all.done_unit });
  if (changed.exercise !== undefined && all.everywhere) changed.everywhere = all.everywhere;
  return { set: s.key, change: changed };
}

/** The form of a part that is no set: its two edges. */
export function changePart(p) {
  show(`Change the ${p.kind}`, p.text, [field('Begins at', 'start', p.start_text), field('Ends at', 'end', p.end_text)], 'Keep the change',
    (changed) => (Object.keys(changed).length ? { phase: p.key, change: changed } : null));
}

/** The form of a set that was missed. */
export function addSet() {
  show('Add a set that was missed', 'Give the moments as the player shows them, such as 12:40.', [
    field('Exercise', 'exercise', ''), choice('Side', 'side', '', sides), announced(), done('', 'reps'),
    field('Begins at', 'start', ''), field('Ends at', 'end', ''), choice('Part', 'phase', 'work', [['work', 'work'], ['balance', 'balance']]),
  ], 'Add the set', (_, all) => ({ add: all }));
}

/** The form that corrects the number that a finding is about; done() is called when it is closed. */
export function correctNumber(f, done) {
  show('Correct the number', f.text, [field(f.number_label, 'number', f.number, { inputMode: 'decimal' })], 'Keep the number',
    (_, all) => ({ finding: f.key, number: all.number }));
  dialog.addEventListener('close', done, { once: true });
}
