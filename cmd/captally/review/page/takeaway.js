// The notes in their forms: to read, to change, to copy, to save as files.
import { find, make } from './dom.js';
import * as server from './server.js';

const text = find('notes');
let state;
let form = 'description';
let timer = 0;
let tell = () => {};
let decide = async () => {};

const current = () => state.forms.find((f) => f.name === form);

/** Says what to call: tell(message) informs, decide(decision) stores a decision and draws its result. */
export function startNotes(callbacks) {
  ({ tell, decide } = callbacks);
}

/** Draws the notes. What is being written is never overwritten. */
export function drawNotes(now) {
  const other = state?.id !== now.id;
  state = now;
  if (other) {
    timer = clearTimeout(timer);
    form = state.forms[0].name;
    drawForms();
    drawDownloads();
  }
  drawText();
}

function drawForms() {
  const box = find('forms');
  box.replaceChildren(box.firstElementChild, ...state.forms.map((f) => make('label', {},
    make('input', { type: 'radio', name: 'form', value: f.name, checked: f.name === form, onchange: () => choose(f.name) }), ` ${f.label}`)));
}

async function choose(name) {
  await saveNow();
  form = name;
  drawText();
}

function drawText() {
  const f = current();
  if (!timer && text.value !== f.text) text.value = f.text;
  find('notes-label').textContent = `Text of the notes: ${f.label}`;
  text.readOnly = !f.editable;
  find('redraft').hidden = !f.edited;
  drawClash(f);
}

function drawClash(f) {
  const box = find('clash');
  box.hidden = f.clashes.length === 0;
  box.replaceChildren(
    make('p', {}, 'A later change touches lines that you wrote yourself. Yours are kept; this is what the draft says now:'),
    ...f.clashes.map((c) => make('dl', {}, make('dt', {}, 'Yours'), make('dd', {}, c.yours || '(taken out)'), make('dt', {}, 'The draft now'), make('dd', {}, c.draft || '(taken out)'))),
  );
}

function drawDownloads() {
  find('downloads').replaceChildren(...state.downloads.map((d) => make('li', {},
    d.why ? make('span', {}, `${d.label}: ${d.why}`) : make('a', { href: server.download(state.id, d.form), download: d.file, data: { key: `download-${d.form}` } }, d.label))));
}

async function saveNow() {
  if (!timer) return;
  timer = clearTimeout(timer);
  await save();
}

async function save() {
  timer = 0;
  const f = current();
  if (!f.editable || text.value === f.text) return;
  if (await decide({ notes: { form, text: text.value } })) find('saved').textContent = 'Your text is kept.';
}

text.addEventListener('input', () => {
  clearTimeout(timer);
  find('saved').textContent = '';
  timer = setTimeout(save, 700);
});
text.addEventListener('blur', saveNow);

find('copy').addEventListener('click', async () => {
  await saveNow();
  const f = current();
  const kinds = { 'text/plain': new Blob([f.text], { type: 'text/plain' }) };
  if (f.rich) kinds['text/html'] = new Blob([f.rich], { type: 'text/html' });
  try {
    await navigator.clipboard.write([new ClipboardItem(kinds)]);
    tell(`Copied: ${f.label}.`);
  } catch {
    text.focus();
    text.select();
    tell('The browser does not let the page copy. The text is selected: press Ctrl+C.');
  }
});

find('redraft').addEventListener('click', () => decide({ notes: { form, text: null } }));

