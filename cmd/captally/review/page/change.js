// The forms that change what was found: a set, a set that was missed, the number of repetitions.
// Times and numbers are sent as they were typed; the program reads them and says what is wrong with them.
import { find, make } from './dom.js';

const dialog = find('dialog');
const form = dialog.querySelector('form');
const sides = [['', 'not said'], ['left', 'left'], ['right', 'right'], ['both', 'both at once'], ['alternate', 'by turns']];
let decide = async () => false;
let fault;

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
  dialog.showModal();
}

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

function doseFields(s) {
  return [
    field('Announced', 'dose', s?.dose ?? '', { inputMode: 'decimal' }),
    choice('Announced in', 'unit', s?.unit ?? '', doseUnits),
  ];
}

/** The form of one set. */
export function changeSet(s, next) {
  const name = s.exercise || 'no name was said';
  const send1 = (text, what) => make('button', { type: 'button', onclick: () => send(what()) }, text);
  const at = field('Split at', 'split', s.middle_text);
  const more = make('div', { class: 'more' },
    next && make('p', {}, send1(`Join with set ${next.number}`, () => ({ set: s.id, join: next.id }))),
    at, make('p', { class: 'controls' }, send1('Split in two there', () => ({ set: s.id, split: form.elements.split.value.trim() }))),
    make('p', { class: 'controls' }, send1('There was no such set', () => ({ set: s.id, remove: true }))));
  show(`Change set ${s.number}`, `${name}, ${s.clock}. Leave what is right.`, [
    field('Exercise', 'exercise', s.exercise), choice('Side', 'side', s.side, sides),
    ...doseFields(s), ...(s.counted ? [field('Repetitions really done', 'done', s.done_reps, { inputMode: 'numeric' })] : []),
    field('Begins at', 'start', s.start_text), field('Ends at', 'end', s.end_text),
  ], 'Keep the change', (changed, all) => {
    delete changed.split;
    return Object.keys(changed).length ? { set: s.id, change: withDose(changed, all) } : null;
  }, more);
}

/** A dose is sent whole: its figure and its unit. */
function withDose(changed, all) {
  if (changed.dose !== undefined || changed.unit !== undefined) Object.assign(changed, { dose: all.dose, unit: all.unit });
  return changed;
}

/** The form of a set that was missed. */
export function addSet(start, end) {
  show('Add a set that was missed', 'Give the moments as the player shows them, such as 12:40.', [
    field('Exercise', 'exercise', ''), choice('Side', 'side', '', sides), ...doseFields(),
    field('Repetitions really done', 'done', '', { inputMode: 'numeric' }), field('Begins at', 'start', start), field('Ends at', 'end', end),
    choice('Part', 'phase', 'work', [['work', 'work'], ['balance', 'balance']]),
  ], 'Add the set', (_, all) => ({ add: all }));
}

/** The form that corrects the number that a finding is about. */
export function correctNumber(f, done) {
  show('Correct the number', f.text, [field(f.number_label, 'number', f.number, { inputMode: 'numeric' })], 'Keep the number',
    (_, all) => ({ finding: f.key, number: all.number }));
  dialog.addEventListener('close', done, { once: true });
}
