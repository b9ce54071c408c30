// The notes in their forms: to read, to change, to copy, to save as files.
import { find, make } from './dom.js';
import * as server from './server.js';

const text = find('notes');
const pause = 2000; // ms without a key, after which what was written is kept
let state;
let form = 'text';
let base = ''; // the draft that is being written on
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
  find('redraft').hidden = !f.edited;
  find('gaps').textContent = f.gaps;
  drawClash(f);
}

function drawClash(f) {
  const box = find('clash');
  box.hidden = !f.clash;
  if (!f.clash) return;
  box.replaceChildren(
    make('p', {}, 'A later change touches lines that you wrote yourself. Yours are kept; the draft would now say something else there.'),
    make('details', {}, make('summary', {}, 'Show both'), make('dl', {}, make('dt', {}, 'Yours'), make('dd', {}, f.clash.yours), make('dt', {}, 'The draft now'), make('dd', {}, f.clash.draft))),
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
  if (text.value === f.text) return;
  if (await decide({ notes: { form, base, text: text.value } })) find('saved').textContent = 'Your text is kept.';
}

text.addEventListener('input', () => {
  if (!timer) base = current().base ?? current().text;
  clearTimeout(timer);
  find('saved').textContent = '';
  timer = setTimeout(save, pause);
});
text.addEventListener('blur', saveNow);
window.addEventListener('beforeprint', () => { find('notes-on-paper').textContent = text.value; }); // a text box is cut at the end of a page
window.addEventListener('pagehide', () => { // a reload while it was being written
  if (!timer) return;
  timer = clearTimeout(timer);
  server.decideLeaving(state.id, { notes: { form, base, text: text.value } });
});

find('copy').addEventListener('click', async () => {
  await saveNow();
  const f = current();
  const kinds = { 'text/plain': new Blob([f.text], { type: 'text/plain' }) };
  if (f.rich) kinds['text/html'] = new Blob([f.rich], { type: 'text/html' });
  try {
    await navigator.clipboard.write([new ClipboardItem(kinds)]);
    tell(['Copied.', f.gaps && `It still has ${f.gaps}`].filter(Boolean).join(' '));
  } catch {
    text.focus();
    text.select();
    tell('The browser does not let the page copy. The text is selected: press Ctrl+C.');
  }
});

find('redraft').addEventListener('click', () => decide({ notes: { form, base: current().base, text: '' } }));

