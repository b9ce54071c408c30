// The moment: the video on the user's own disk, and what was said beside it, word by word, with the count marked.
import { find, make } from './dom.js';
import { markMoment } from './strip.js';

const player = find('player');
const list = find('words');
let said = { cues: [], words: [] };
let spans = []; // one a word
let times = []; // one button a cue
let marked = new Map(); // word: its mark
let word = -1;
let local = '';

/** Shows the words of a session. */
export function showWords(words) {
  said = words;
  word = -1;
  spans = words.words.map(([text], i) => make('span', { data: { word: i } }, text));
  times = [];
  list.replaceChildren(...words.cues.map((c, i) => {
    const time = make('button', { type: 'button', class: 'time', tabIndex: i ? -1 : 0, data: { cue: i, key: `cue-${i}` }, aria: { label: `Go to ${c.clock}` } }, c.clock);
    times.push(time);
    const line = make('p', {});
    for (const s of spans.slice(c.first, c.last)) line.append(s, ' ');
    return make('li', {}, time, line);
  }));
}

/** Marks the numbers of the counts. Only what changed is touched. */
export function markCounts(marks) {
  const now = new Map(marks.map((m) => [m.word, m]));
  for (const i of marked.keys()) if (!now.has(i) && spans[i]) spans[i].className = '';
  for (const [i, m] of now) {
    if (!spans[i] || (marked.get(i)?.text === m.text && spans[i].className)) continue;
    spans[i].className = `number ${m.origin}`;
    spans[i].title = m.text;
  }
  marked = now;
  showCount();
}

/** Goes to a moment. With play, the video starts there. */
export function goTo(seconds, play = false) {
  if (hasVideo()) {
    player.currentTime = seconds;
    if (play) player.play().catch(() => {});
    follow();
    return;
  }
  markMoment(seconds);
  light(wordAt(seconds), true);
}

/** Brings the words of a moment into view, whether or not a video is at an earlier one. */
export function lookAt(seconds) {
  markMoment(seconds);
  scrollTo(cueAt(seconds));
}

export const hasVideo = () => !player.hidden;

export function usePlayer(src) {
  find('video-fault').textContent = '';
  player.src = src;
  player.hidden = false;
  document.body.classList.add('has-video');
  find('moment-part').append(find('choose'));
  find('slow').hidden = false;
}

function closePlayer(fault) {
  player.removeAttribute('src');
  player.hidden = true;
  document.body.classList.remove('has-video');
  find('player').after(find('choose'));
  find('slow').hidden = true;
  find('video-fault').textContent = fault;
}

/** The last index whose time is not after the given one; -1 for none. */
function last(n, timeOf, seconds) {
  let low = 0;
  let high = n;
  while (low < high) {
    const middle = (low + high) >> 1;
    if (timeOf(middle) <= seconds) low = middle + 1;
    else high = middle;
  }
  return low - 1;
}

const wordAt = (seconds) => last(said.words.length, (i) => said.words[i][1], seconds + 0.05);
const cueAt = (seconds) => Math.max(0, last(said.cues.length, (i) => said.cues[i].start_s, seconds + 0.05));

function light(i, bring) {
  if (i !== word) {
    spans[word]?.classList.remove('now');
    spans[i]?.classList.add('now');
    word = i;
    showCount();
  }
  if (bring && spans[i]) scrollTo([...times].indexOf(spans[i].closest('li').firstChild));
}

function showCount() {
  const m = marked.get(word);
  if (m) find('count').textContent = m.text;
  else if (!spans[word]) find('count').textContent = '';
}

/** Scrolls the list itself and never the page. */
function scrollTo(cue) {
  const line = times[cue]?.parentElement;
  if (!line) return;
  for (const t of times) if (t.tabIndex === 0) t.tabIndex = -1;
  times[cue].tabIndex = 0;
  list.querySelector('.here')?.classList.remove('here');
  line.classList.add('here');
  const box = list.getBoundingClientRect();
  unseen = box.top > innerHeight || box.bottom < 0;
  settleOn(line, 5);
}

// A list that is out of view has no true heights at all: once it comes into view, its line is looked for again.
let unseen = false;
new IntersectionObserver(([e]) => {
  const line = list.querySelector('.here');
  if (e.isIntersecting && unseen && line) settleOn(line, 5);
  unseen = !e.isIntersecting && unseen;
}).observe(list);

/** Scrolls to a line, and again: lines that were out of view get their true heights only in the frames that follow. */
function settleOn(line, frames) {
  if (!line.classList.contains('here')) return;
  list.scrollTop += line.getBoundingClientRect().top - list.getBoundingClientRect().top - list.clientHeight / 3;
  if (frames > 0) requestAnimationFrame(() => settleOn(line, frames - 1));
}

let shown = -1;
function follow() {
  const at = player.currentTime;
  markMoment(at);
  light(wordAt(at), false);
  const cue = cueAt(at);
  if (cue !== shown) scrollTo(cue);
  shown = cue;
}

function frame() {
  follow();
  if (!player.paused && !player.ended) requestAnimationFrame(frame);
}

player.addEventListener('play', frame);
player.addEventListener('seeked', follow);
player.addEventListener('error', () => {
  if (player.getAttribute('src')) closePlayer('The browser cannot play this file. MP4 with H.264, WebM and WAV usually work. The words with their times stand below.');
});

find('slow').addEventListener('click', () => {
  const slow = find('slow').getAttribute('aria-pressed') !== 'true';
  find('slow').setAttribute('aria-pressed', String(slow));
  player.playbackRate = slow ? 0.5 : 1;
  player.defaultPlaybackRate = player.playbackRate;
});

/** Plays a file of the user's. */
export function useFile(file) {
  if (local) URL.revokeObjectURL(local);
  local = URL.createObjectURL(file);
  usePlayer(local);
}

find('video').addEventListener('change', () => {
  const [file] = find('video').files;
  if (file) useFile(file);
});

list.addEventListener('click', (e) => {
  const { word: w, cue: c } = e.target.dataset;
  if (w !== undefined) goTo(said.words[w][1], false);
  else if (c !== undefined) goTo(said.cues[c].start_s, hasVideo());
});

// One stop of the Tab key for the whole list; the arrows go through its times.
list.addEventListener('keydown', (e) => {
  const step = { ArrowDown: 1, ArrowUp: -1 }[e.key];
  const at = times.indexOf(document.activeElement);
  if (!step || at < 0 || !times[at + step]) return;
  e.preventDefault();
  times[at].tabIndex = -1;
  times[at + step].tabIndex = 0;
  times[at + step].focus();
});
