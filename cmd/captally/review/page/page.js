// The page: opens a session, draws its state, and sends what is decided.
import { addSet, changePart, changeSet, correctNumber, startForms } from './change.js';
import { find, keepingFocus, make } from './dom.js';
import { sort } from './drop.js';
import { drawFindings, goToNext, inView, openFinding, startFindings, unsettledAfter } from './findings.js';
import { goTo, hasVideo, lookAt, markCounts, showWords, useFile, usePlayer } from './moment.js';
import * as server from './server.js';
import { drawStrip } from './strip.js';
import { drawTables } from './tables.js';
import { drawNotes, startNotes } from './takeaway.js';

const minute = 60_000;
let state = null;
let hasMedia = false;
let mostBytes = Infinity;

function tell(message) {
  find('said').textContent = '';
  requestAnimationFrame(() => { find('said').textContent = message; });
}

const strip = () => drawStrip(state, inView(), moment, openFinding);

function draw() {
  keepingFocus(() => {
    drawHead();
    drawFindings(state);
    strip();
    drawTables(state, { go: moment, show: openFinding, change, changePart });
  });
  drawNotes(state);
  markCounts(state.marks);
}

const change = (s) => changeSet(s, state.sets[s.number]);

function drawHead() {
  document.title = `${state.title} · captally`;
  find('title').textContent = state.title;
  find('facts').textContent = state.facts;
  find('verdict').textContent = state.verdict;
  find('kept').textContent = `Saved in ${state.kept}`;
  find('begin').hidden = state.left === 0;
  find('to-notes').classList.toggle('main', state.left === 0);
  find('undo').hidden = !state.undo;
  find('warnings').hidden = state.warnings.length === 0;
  find('warnings').firstElementChild.textContent = state.warnings_title;
  find('warnings').lastElementChild.replaceChildren(...state.warnings.map((w) => make('li', {}, w)));
  find('decided').firstElementChild.textContent = state.changes.length ? `All that you decided (${state.changes.length}); it is saved at once` : 'What you decide is saved at once';
  find('decided').querySelector('ol').replaceChildren(...state.changes.map((c) => make('li', {}, c)));
  find('unfit').hidden = state.unfit.length === 0;
  find('unfit').replaceChildren(make('p', {}, 'The captions have changed since you settled this. What still fits is kept; this does not fit any more:'),
    make('ul', {}, ...state.unfit.map((u) => make('li', {}, u))));
}

/** Goes to a moment from the strip or a table, and brings the moment into view on a narrow page. */
function moment(seconds) {
  goTo(seconds, hasVideo());
  if (!hasVideo()) lookAt(seconds);
  if (matchMedia('(max-width: 62rem)').matches) find('moment-part').scrollIntoView({ block: 'start' });
}

/** Sends a decision and draws what follows. Returns the reason where it was refused, else "". */
async function decide(decision) {
  try {
    state = await server.decide(state.id, decision);
  } catch (e) {
    if (!find('dialog').open) tell(e.message); // a form says it itself
    await refresh();
    return e.message;
  }
  draw();
  tell(state.told);
  return '';
}

async function undo() {
  try {
    state = await server.undo(state.id);
  } catch (e) {
    tell(e.message);
    return;
  }
  draw();
  tell(state.told);
}

/** Draws what another window, or a person at the file, has decided meanwhile. */
async function refresh() {
  if (!state) return;
  try {
    const now = await server.session(state.id);
    if (now.id !== state.id || JSON.stringify({ ...now, told: '' }) === JSON.stringify({ ...state, told: '' })) return;
    state = now;
  } catch {
    return; // it is told at the next decision
  }
  draw();
}

async function show(next) {
  const words = await server.words(next.id);
  state = next;
  find('welcome').hidden = true;
  for (const id of ['session', 'parts', 'another']) find(id).hidden = false;
  if (hasMedia && !hasVideo()) usePlayer('/media');
  showWords(words);
  draw();
  const first = state.findings.find((f) => !f.settled);
  if (first) lookAt(first.at_s);
}

function welcome() {
  state = null;
  find('welcome').hidden = false;
  for (const id of ['session', 'parts', 'another']) find(id).hidden = true;
  document.title = 'captally';
}

const inAddress = () => new URLSearchParams(location.search).get('session');

/** Opens a session by what(); a file that cannot be read is told on the page. With enter, the focus goes to its title, and Back comes back here. */
async function open(what, enter = true) {
  find('broken').textContent = '';
  try {
    await show(await what());
  } catch (e) {
    fail(e.message);
    return false;
  }
  const address = `/?session=${state.id}`;
  if (enter && inAddress() !== state.id) history.pushState(null, '', address);
  else if (!inAddress()) history.replaceState(null, '', address);
  if (enter) find('title').focus();
  return true;
}

/** Tells what is wrong with a file; a session that is open stays. */
function fail(message) {
  if (state) tell(message);
  else find('broken').textContent = message;
}

/** Opens what was dropped or chosen. */
async function take(transfer) {
  const { captions, video, fault } = sort(transfer, mostBytes, Boolean(state));
  if (fault) {
    fail(fault);
    return;
  }
  if (captions && !(await open(() => server.open(captions)))) return;
  if (video) useFile(video);
}

/** Shows the session that the address names, as after Back. */
async function follow() {
  const id = inAddress();
  if (id === (state?.id ?? null)) return;
  if (id) await open(() => server.session(id), false);
  else welcome();
}

find('file').addEventListener('change', async () => {
  await take({ files: find('file').files });
  find('file').value = '';
});
find('demo').addEventListener('click', () => open(server.demo));
find('another').addEventListener('click', () => {
  welcome();
  history.pushState(null, '', '/');
  find('file').focus();
});
find('undo').addEventListener('click', undo);
find('add').addEventListener('click', () => addSet());
find('begin').addEventListener('click', () => openFinding());
window.addEventListener('popstate', follow);
document.addEventListener('visibilitychange', () => { if (!document.hidden) refresh(); });
window.addEventListener('focus', refresh);

// A file may be dropped anywhere on the page.
for (const kind of ['dragover', 'dragleave', 'drop']) {
  document.addEventListener(kind, (e) => {
    if (!e.dataTransfer.types.includes('Files')) return; // words of the notes, say
    e.preventDefault();
    find('drop').classList.toggle('over', kind === 'dragover');
    if (kind === 'drop') take(e.dataTransfer);
  });
}

startForms(decide);
startNotes({ tell, decide: async (d) => (await decide(d)) === '' });
startFindings({
  show: (f) => (hasVideo() ? goTo(f.play_s) : goTo(f.at_s)),
  play: (f) => (hasVideo() ? goTo(f.play_s, true) : goTo(f.at_s)),
  settle: async (f, verdict) => (await decide({ finding: f.key, verdict })) === '',
  agree: async (keys) => (await decide({ agree: keys })) === '',
  correct: (f) => {
    const after = unsettledAfter(f.key);
    correctNumber(f, () => {
      if (state.findings.find((x) => x.key === f.key && !x.settled)) return;
      goToNext(after);
    });
  },
  change: (f) => change(state.sets.find((x) => x.key === f.set)),
  undo,
  fold: strip,
});

// The program may stop when nobody is there: a page that is looked at says so.
setInterval(() => { if (!document.hidden) server.here().catch(() => {}); }, minute / 2);

const begin = await server.start();
hasMedia = begin.video;
mostBytes = begin.most_bytes;
find('demo').parentElement.hidden = !begin.demo;
const wanted = inAddress() || begin.session;
if (wanted) await open(() => server.session(wanted), false);
if (!state) history.replaceState(null, '', '/');
