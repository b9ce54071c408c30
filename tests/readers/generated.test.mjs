// Files made of what the other readers know too, in every combination: read alike.
import { test } from 'node:test';
import assert from 'node:assert/strict';
import { same, wordsOf } from './compare.mjs';
import { mediaCaptions, plusSub, w3c } from './others.mjs';
import { words } from './ours.mjs';

const files = 150;

/** Numbers in [0,1), the same in each run: mulberry32, a generator in the public domain. */
function random(seed) {
  return () => {
    seed = (seed + 0x6d2b79f5) | 0;
    let t = Math.imul(seed ^ (seed >>> 15), 1 | seed);
    t = (t + Math.imul(t ^ (t >>> 7), 61 | t)) ^ t;
    return ((t ^ (t >>> 14)) >>> 0) / 4294967296;
  };
}

const vocabulary = 'and lift hold rest for two 2 three 3 ten 10 ½ 1,500 10:30 twenty-one don’t naïve ٣ knees, slowly. up? down! 7; 8'.split(' ');
const inVTT = ['&amp;', '&lt;', '&gt;'];

class Writer {
  constructor(seed) {
    this.random = random(seed);
    this.now = 1000 + this.below(5000);
  }

  below(n) { return Math.floor(this.random() * n); }

  chance(p) { return this.random() < p; }

  of(list) { return list[this.below(list.length)]; }

  /** Times of the next cue in ms; no cue overlaps another, since the program ends a cue where the next begins. */
  next() {
    const start = this.now + (this.chance(0.5) ? 0 : this.below(4000));
    this.now = start + 700 + this.below(4000);
    return [start, this.now];
  }

  /** One to six words; none of them in capitals before a colon, which the program takes for the name of a speaker. */
  line() { return Array.from({ length: 1 + this.below(6) }, () => this.of(vocabulary)); }

  lines() { return Array.from({ length: 1 + this.below(3) }, () => this.line()); }

  ended(text) { return (this.chance(0.2) ? '\uFEFF' : '') + text.replace(/\n/g, this.of(['\n', '\r\n'])); }
}

const two = (n) => String(n).padStart(2, '0');
const clock = (ms, mark, hours = true) => `${hours || ms >= 3600000 ? `${two(Math.floor(ms / 3600000))}:` : ''}${two(Math.floor(ms / 60000) % 60)}:${two(Math.floor(ms / 1000) % 60)}${mark}${String(ms % 1000).padStart(3, '0')}`;

function subRip(w) {
  let out = '';
  const cues = 3 + w.below(20);
  for (let i = 1; i <= cues; i++) {
    const [start, end] = w.next();
    const lines = w.lines().map((line) => {
      const text = line.join(w.chance(0.1) ? '  ' : ' ');
      return w.of([text, text, `<i>${text}</i>`, `<font color="#ff0000">${text}</font>`, `<b>${line[0]}</b> ${line.slice(1).join(' ')}`, `{\\an8}${text}`]);
    });
    out += `${i}\n${clock(start, ',')} --> ${clock(end, ',')}\n${lines.join('\n')}\n\n`;
  }
  return w.ended(out);
}

function webVTT(w) {
  let out = `WEBVTT${w.of(['', ' - a title', '\tx'])}\n\n`;
  if (w.chance(0.3)) out += 'STYLE\n::cue { color: red }\n\n';
  const cues = 3 + w.below(20);
  for (let i = 0; i < cues; i++) {
    const [start, end] = w.next();
    if (w.chance(0.1)) out += w.of(['NOTE one two\n\n', 'NOTE\nseven eight\nnine\n\n']);
    if (w.chance(0.4)) out += `${w.of(['chapter', 'cue 7', `${i + 1}`])}\n`;
    const hours = w.chance(0.5);
    out += `${clock(start, '.', hours)} --> ${clock(end, '.', hours)}${w.of(['', ' align:start', ' line:0 position:20%', ' size:50%'])}\n`;
    out += `${w.lines().map((line) => markedUp(w, line, start, end)).join('\n')}\n\n`;
  }
  return w.ended(out);
}

/** A line with tags of every kind, and times on some of its words if it is the only one that can have them. */
function markedUp(w, line, start, end) {
  const text = line.map((word) => w.of([word, word, `<c.red>${word}</c>`, `<b>${word}</b>`, `${w.of(inVTT)} ${word}`])).join(' ');
  if (w.chance(0.2)) return `<v ${w.of(['Coach', 'Anna B'])}>${text}</v>`;
  if (w.chance(0.2)) return `<lang en>${text}</lang>`;
  w.timed = w.timed === start || w.chance(0.3) ? start : undefined; // the last cue that has a timed line
  if (w.timed !== start || w.used === start) return text;
  w.used = start;
  return line.map((word, i) => (i === 0 ? word : `<${clock(start + Math.floor(((end - start) * i) / line.length), '.')}>${word}`)).join(' ');
}

test('generated SubRip', async () => {
  let times = 0;
  for (let seed = 1; seed <= files; seed++) {
    const text = subRip(new Writer(seed));
    const ours = words(text);
    try {
      times += same(ours, wordsOf(plusSub(text)));
      times += same(ours, wordsOf(await mediaCaptions(text)));
    } catch (e) {
      assert.fail(`seed ${seed}: ${e.message}`);
    }
  }
  console.log(`${files} generated SubRip files: every word and ${times} times equal in two other readers`);
});

test('generated WebVTT', () => {
  let times = 0;
  for (let seed = 1; seed <= files; seed++) {
    const text = webVTT(new Writer(seed));
    try {
      times += same(words(text), wordsOf(w3c(text).cues));
    } catch (e) {
      assert.fail(`seed ${seed}: ${e.message}`);
    }
  }
  console.log(`${files} generated WebVTT files: every word and ${times} times equal in the W3C's parser`);
});
