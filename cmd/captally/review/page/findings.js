// The list of what to settle, led by the keyboard. One finding is open at a time and shows its actions.
import { button, find, focusOn, make, redraw } from './dom.js';
import { markFinding, sign } from './strip.js';

const list = find('findings');
const letters = find('letters');
let state;
let openKey = '';
let act = {};

/** What can be done about a finding, by the name it has in the state: its letter on the keyboard, and what it is in general. */
const letterOf = {
  p: ['p', 'play'], said: ['s', 'it was said, or is so'], captions: ['c', "the captioner's mistake"], 'not-so': ['n', 'not so'], r: ['r', 'correct the number'], e: ['e', 'change the set'],
};

/** Says what the list may call: play, show, correct, change, settle, each with a finding; agree with keys; undo; fold when some are folded away or back. */
export function startFindings(callbacks) {
  act = callbacks;
  find('keys').querySelector('dl').replaceChildren(...[['↓ ↑', 'next, previous'], ['Enter', 'open and play'], ...Object.values(letterOf), ['u', 'undo']]
    .map(([k, what]) => make('div', {}, make('dt', {}, make('kbd', {}, k)), make('dd', {}, what))));
  try {
    letters.checked = sessionStorage.getItem('letters') !== 'off';
  } catch { /* a browser that keeps nothing */ }
}

letters.addEventListener('change', () => {
  try {
    sessionStorage.setItem('letters', letters.checked ? 'on' : 'off');
  } catch { /* as above */ }
});

export function drawFindings(now) {
  state = now;
  if (!state.findings.some((f) => f.key === openKey)) openKey = (state.findings.find((f) => !f.settled) ?? state.findings[0])?.key ?? '';
  find('progress').textContent = state.progress;
  find('keys').hidden = state.findings.length === 0;
  drawFaults();
  markFinding(openKey);
  redraw(list, inView().map((f) => ({ ...f, open: f.key === openKey })), item);
}

const isFault = (f) => !f.settled && f.cause === 'captions';
const faults = () => state.findings.filter(isFault);
const many = 6; // mistakes of the captions, from which they are folded away
let unfolded = false;

/** The findings that are not folded away. */
export const inView = () => (unfolded || faults().length < many ? state.findings : state.findings.filter((f) => !isFault(f) || f.key === openKey));

function drawFaults() {
  const n = faults().length;
  find('faults').hidden = n < 2;
  find('faults').querySelector('span').textContent = n;
  find('unfold').hidden = n < many;
  find('unfold').setAttribute('aria-expanded', String(unfolded));
  find('unfold').textContent = unfolded ? 'Fold them away' : 'Show them one by one';
}

find('agree').addEventListener('click', async () => {
  if (await act.agree(faults().map((f) => f.key))) openFinding();
});
find('unfold').addEventListener('click', () => {
  unfolded = !unfolded;
  drawFindings(state);
  act.fold();
});

function item(f) {
  const { open } = f;
  const head = button('', `finding-${f.key}`, () => openAndPlay(f), { class: 'finding', aria: { expanded: String(open) } });
  head.append(sign(f), make('span', { class: 'what' }, f.where && make('b', {}, `${f.where}. `), f.text), make('span', { class: 'about' }, f.settled ? `Settled: ${f.settled}` : f.sure));
  const li = make('li', { class: `${open ? 'open' : ''} ${f.settled ? 'settled' : ''}`, data: { finding: f.key } }, head);
  if (open) li.append(details(f));
  return li;
}

function details(f) {
  const buttons = f.actions.map(({ do: what, label }) => {
    const [letter] = letterOf[what];
    const b = button(label, `action-${letter}`, () => run(what, f), { class: 're'.includes(letter) ? 'quiet' : '', data: { key: `action-${letter}`, do: what }, aria: { keyshortcuts: letter } });
    b.append(' ', make('kbd', { aria: { hidden: 'true' } }, letter));
    return b;
  });
  const follow = f.follow.length ? make('ul', { class: 'follow', aria: { label: 'What follows from it' } }, ...f.follow.map((t) => make('li', {}, `It follows: ${t}`))) : '';
  const said = f.evidence.length
    ? make('ul', { class: 'evidence', aria: { label: 'What the captions say' } }, ...f.evidence.map((e) => make('li', {}, make('span', { class: 'clock' }, e.clock), ` “${e.text}”`)))
    : '';
  return make('div', { class: 'details' }, said, follow, make('p', { class: 'advice' }, f.advice), make('div', { class: 'actions' }, ...buttons));
}

const others = { p: (f) => act.play(f), r: (f) => act.correct(f), e: (f) => act.change(f) };

function run(what, f) {
  if (others[what]) others[what](f);
  else settle(f, what);
}

function openAndPlay(f) {
  open(f);
  act.play(f);
}

/** Opens the finding with a key, or else the first that is open; with none left, the focus goes to the heading. */
export function openFinding(key) {
  const f = state.findings.find((x) => (key ? x.key === key : !x.settled));
  if (f) open(f);
  else find('findings-title').focus();
}

/** Opens a finding, puts the focus on it and shows its moment. */
function open(f) {
  openKey = f.key;
  drawFindings(state);
  focusOn(`finding-${f.key}`);
  act.show(f);
}

/** Settles a finding; the focus goes to the next one that is not settled. */
async function settle(f, verdict) {
  const after = unsettledAfter(f.key);
  if (await act.settle(f, verdict)) goToNext(after);
}

/** Opens the first of these findings that is still there and not settled; with none left, the focus goes to the heading. */
export function goToNext(keys) {
  const next = keys.map((k) => state.findings.find((x) => x.key === k)).find((x) => x && !x.settled);
  if (next) open(next);
  else find('findings-title').focus();
}

/** The keys of what may come after a finding is settled. */
export function unsettledAfter(key) {
  const at = state.findings.findIndex((x) => x.key === key);
  return [...state.findings.slice(at + 1), ...state.findings.slice(0, at)].filter((x) => !x.settled).map((x) => x.key);
}

// The keys act only while the focus is in the list, and the letters can be switched off (WCAG 2.2, 2.1.4).
list.addEventListener('keydown', (e) => {
  if (e.ctrlKey || e.altKey || e.metaKey) return;
  const at = state.findings.findIndex((f) => f.key === openKey);
  const focused = e.target.closest('li')?.dataset.finding ?? e.target.closest('[data-finding]')?.dataset.finding;
  const here = state.findings.findIndex((f) => f.key === focused);
  const from = here >= 0 ? here : at;
  const f = state.findings[from];
  const step = { ArrowDown: 1, ArrowUp: -1 }[e.key];
  if (step) {
    e.preventDefault();
    if (state.findings[from + step]) open(state.findings[from + step]);
    return;
  }
  if (!letters.checked || !f) return;
  if (e.key === 'u') {
    e.preventDefault();
    act.undo();
    return;
  }
  const action = f.actions.find((a) => letterOf[a.do][0] === e.key);
  if (action) {
    e.preventDefault();
    run(action.do, f);
  }
});
