// Every caption file of the labelled sessions, read by other parsers as well.
import assert from 'node:assert/strict';
import { readFileSync } from 'node:fs';
import { basename } from 'node:path';
import { test } from 'node:test';
import { same, wordsOf } from './compare.mjs';
import { mediaCaptions, plusSub, w3c } from './others.mjs';
import { clean, corpus, words } from './ours.mjs';

const fillers = 0.02; // s; shorter cues of captions that roll up only show the lines before

/**
 * Difference: the W3C's parser shows captions that roll up as a player does, each line twice and once in a filler of 10 ms. Said is
 * the last line of each longer cue.
 */
const unrolled = (cues) => cues.filter((c) => c.end - c.start > fillers)
  .map((c) => ({ ...c, lines: c.lines.filter((line) => line.some((p) => p.text.trim())).slice(-1) }));

/** The starts and ends of cues in ms, as one text. Difference: the program ends a cue where the next begins. */
const spans = (cues) => cues.map((c, i) => `${ms(c.start)}-${ms(Math.min(c.end, cues[i + 1]?.start ?? Infinity))}`).join(' ');

const ms = (s) => Math.round(s * 1000);

// Differences: the lines "Kind:" and "Language:" of real files are not in the standard, and a word may have the time at which its cue ends.
const known = new Set(['No blank line after the signature.', 'Timestamp must be between start timestamp and end timestamp.']);

test('SubRip', async () => {
  let files = 0;
  let times = 0;
  for (const file of corpus('.cue.srt')) {
    const text = readFileSync(file, 'utf8');
    const ours = words(text);
    const rewritten = spans(w3c(clean(text)).cues);
    for (const [name, cues] of [['media-captions', await mediaCaptions(text)], ['srt-vtt-parser', plusSub(text)]]) {
      times += same(ours, wordsOf(cues));
      assert.equal(rewritten, spans(cues), `${basename(file)}: ends of the cues, ${name}`);
    }
    files++;
  }
  assert.ok(files >= 33);
  console.log(`${files} SubRip files: every word and ${times} times equal in two other readers`);
});

test('WebVTT with a time on each word', () => {
  let files = 0;
  let times = 0;
  for (const file of corpus('.word.vtt')) {
    const text = readFileSync(file, 'utf8');
    const { cues, errors } = w3c(text);
    assert.deepEqual(errors.filter((e) => !known.has(e.message)), [], basename(file));
    times += same(words(text), wordsOf(text.includes('<c>') ? unrolled(cues) : cues));
    files++;
  }
  assert.ok(files >= 33);
  console.log(`${files} WebVTT files: every word and ${times} times equal in the W3C's parser`);
});

test('the comparison refuses what differs', () => {
  const theirs = wordsOf([{ start: 1, end: 2, lines: [[{ text: 'one two' }]] }]);
  const ours = [{ text: 'one', at_s: 1 }, { text: 'two', at_s: 1.5 }];
  assert.equal(same(ours, theirs), 1);
  assert.throws(() => same(ours.slice(1), theirs), 'a word lost');
  assert.throws(() => same([...ours, { text: 'three', at_s: 2 }], theirs), 'a word too many');
  assert.throws(() => same([{ text: 'one', at_s: 1.1 }, ours[1]], theirs), 'another time');
});
