// The WebVTT files are read by the W3C's parser and validator (webvtt-parser on npm, github.com/w3c/webvtt.js), which shares no
// code with the program. Rules: W3C, WebVTT, w3.org/TR/webvtt1, 4.1 and, for chapters, 4.5.1 and 4.6.2.
import assert from 'node:assert/strict';
import { test } from 'node:test';
import parser from 'webvtt-parser';
import { notes, sessions } from './sessions.mjs';

const { WebVTTParser } = parser;
const read = (text, kind) => new WebVTTParser().parse(text, kind);

/** Whether no two cues overlap in part: one lies in the other, or they share no time. The validator leaves this rule out. */
function nested(cues) {
  return cues.every((a) => cues.every((b) => a === b || b.startTime >= a.endTime || b.endTime <= a.startTime
    || (b.startTime >= a.startTime && b.endTime <= a.endTime) || (a.startTime >= b.startTime && a.endTime <= b.endTime)));
}

test('the judges refuse what is wrong', () => {
  const file = (...cues) => `WEBVTT\n\n${cues.join('\n\n')}\n`;
  assert.notEqual(read(file('00:10.000 --> 00:05.000\nA'), 'chapters').errors.length, 0, 'an end before its start');
  assert.notEqual(read(file('00:00.00 --> 00:05.000\nA'), 'chapters').errors.length, 0, 'two decimals');
  assert.notEqual(read(file('00:00.000 --> 00:05.000\n<b>A</b>'), 'chapters').errors.length, 0, 'a tag in a title');
  assert.ok(!nested(read(file('00:00.000 --> 01:00.000\nA', '00:30.000 --> 01:30.000\nB'), 'chapters').cues), 'the overlap of 4.6.2');
});

for (const session of sessions) {
  test(`chapters of ${session}`, () => {
    const draft = JSON.parse(notes(session, 'json'));
    const { cues, errors } = read(notes(session, 'chapters'), 'chapters');
    assert.deepEqual(errors, []);
    assert.deepEqual(cues.map((c) => [c.startTime, c.text]), draft.chapters.map((c) => [c.start_s, c.title]));
    assert.ok(nested(cues));
    assert.equal(cues[0].startTime, 0);
    assert.ok(cues.length >= 3);
    cues.slice(1).forEach((c, i) => {
      assert.ok(c.startTime - cues[i].startTime >= 10, `${c.text} comes too soon`);
      assert.equal(cues[i].endTime, c.startTime, `${c.text} leaves a gap before it`);
    });
  });

  test(`overlay of ${session}`, () => {
    const draft = JSON.parse(notes(session, 'json'));
    const { cues, errors } = read(notes(session, 'overlay'), 'subtitles');
    assert.deepEqual(errors, []);
    assert.equal(cues.length, draft.corrections.length);
  });

  test(`captions of ${session} put right`, () => {
    // SubRip has no standard; its cues differ from WebVTT's in the comma, and these have no tags.
    const text = `WEBVTT\n\n${notes(session, 'captions').replace(/^\uFEFF/, '').replace(/(\d\d:\d\d:\d\d),(\d{3})/g, '$1.$2')}`;
    assert.deepEqual(read(text, 'subtitles').errors, []);
  });
}
