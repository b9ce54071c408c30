// The page: opens a session, draws its state, and sends what is decided.
import { addSet, changePart, changeSet, correctNumber, startForms } from './change.js';
import { find, keepingFocus, make } from './dom.js';
import { drawFindings, goToNext, startFindings, unsettledAfter } from './findings.js';
import { goTo, hasVideo, lookAt, markCounts, showWords, usePlayer } from './moment.js';
import * as server from './server.js';
import { drawStrip } from './strip.js';
import { drawTables } from './tables.js';
import { drawNotes, startNotes } from './takeaway.js';

const minute = 60_000;
let state = null;
let hasMedia = false;

function tell(message) {
  find('said').textContent = '';
  requestAnimationFrame(() => { find('said').textContent = message; });
}

function draw() {
  keepingFocus(() => {
    drawHead();
    drawStrip(state, moment);
    drawTables(state, moment, (s) => changeSet(s, state.sets[s.number]), changePart);
    drawFindings(state);
  });
  drawNotes(state);
  markCounts(state.marks);
}

function drawHead() {
  document.title = `${state.title} · captally`;
  find('title').textContent = state.title;
  find('facts').textContent = state.facts;
  find('verdict').textContent = state.verdict;
  find('kept').textContent = state.kept;
  find('undo').hidden = !state.undo;
  find('warnings').hidden = state.warnings.length === 0;
  find('warnings').firstElementChild.textContent = state.warnings_title;
  find('warnings').lastElementChild.replaceChildren(...state.warnings.map((w) => make('li', {}, w)));
  find('decided').hidden = state.changes.length === 0;
  find('decided').firstElementChild.textContent = `All that was decided (${state.changes.length})`;
  find('decided').lastElementChild.replaceChildren(...state.changes.map((c) => make('li', {}, c)));
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
    tell(e.message);
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

async function show(next) {
  const words = await server.words(next.id);
  state = next;
  find('welcome').hidden = true;
  find('session').hidden = false;
  find('parts').hidden = false;
  find('another').hidden = false;
  history.replaceState(null, '', `/#${state.id}`);
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
  history.replaceState(null, '', '/');
  document.title = 'captally';
}

/** Opens a session by what(); a file that cannot be read is told on the page. With enter, the focus goes to its title. */
async function open(what, enter = true) {
  find('broken').textContent = '';
  try {
    await show(await what());
    if (enter) find('title').focus();
  } catch (e) {
    if (state) welcome();
    find('broken').textContent = e.message;
  }
}

find('file').addEventListener('change', () => {
  const [file] = find('file').files;
  if (file) open(() => server.open(file));
  find('file').value = '';
});
find('demo').addEventListener('click', () => open(server.demo));
find('another').addEventListener('click', () => {
  welcome();
  find('file').focus();
});
find('undo').addEventListener('click', undo);
find('add').addEventListener('click', () => addSet());

// A file may be dropped anywhere on the page.
for (const kind of ['dragover', 'dragleave', 'drop']) {
  document.addEventListener(kind, (e) => {
    e.preventDefault();
    find('drop').classList.toggle('over', kind === 'dragover');
    const file = kind === 'drop' && e.dataTransfer.files[0];
    if (file) open(() => server.open(file));
  });
}

startForms(decide);
startNotes({ tell, decide: async (d) => (await decide(d)) === '' });
startFindings({
  show: (f) => (hasVideo() ? goTo(f.play_s) : goTo(f.at_s)),
  play: (f) => (hasVideo() ? goTo(f.play_s, true) : goTo(f.at_s)),
  settle: async (f, verdict) => (await decide({ finding: f.key, verdict })) === '',
  correct: (f) => {
    const after = unsettledAfter(f.key);
    correctNumber(f, () => {
      if (state.findings.find((x) => x.key === f.key && !x.settled)) return;
      goToNext(after);
    });
  },
  undo,
});

// The program may stop when nobody is there: a page that is looked at says so.
setInterval(() => { if (!document.hidden) server.here().catch(() => {}); }, minute / 2);

const begin = await server.start();
hasMedia = begin.video;
find('demo').parentElement.hidden = !begin.demo;
const wanted = location.hash.slice(1) || begin.session;
if (/^[0-9a-f]{32}$/.test(wanted)) await open(() => server.session(wanted), false);
else history.replaceState(null, '', '/');
