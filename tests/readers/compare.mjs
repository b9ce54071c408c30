// Compares words and times. The program cuts words finer than at blanks ("3-2-1" is three words) and leaves marks out, so words are
// compared by their letters and digits.
import assert from 'node:assert/strict';

const bare = (s) => s.normalize('NFC').toLowerCase().replace(/[^\p{L}\p{N}\p{M}]/gu, '');

/**
 * The words of cues that another reader gave, cut at blanks: [{text, at, start, end}]; at is set for the first word of a cue and where
 * the file times the word. What stands in square brackets is left out: to the program it is a sound, not a word.
 */
export function wordsOf(cues) {
  return cues.flatMap(({ start, end, lines }) => {
    const out = [];
    let at = start;
    for (const line of lines) {
      let bracket = false;
      for (const piece of line) {
        at = piece.at ?? at;
        for (const token of piece.text.split(/(?<=\])|\s+/)) {
          bracket ||= token.startsWith('[');
          if (!bracket && bare(token)) {
            out.push({ text: bare(token), at, start, end });
            at = undefined;
          }
          bracket &&= !token.endsWith(']');
        }
      }
    }
    return out;
  });
}

/** Asserts that ours are the same words at the same times as theirs, and returns how many times were compared. */
export function same(ours, theirs) {
  let times = 0;
  let last = 0;
  let i = 0;
  for (const their of theirs) {
    const { at_s: at } = ours[i] ?? assert.fail(`${their.text} at ${their.start} s is missing`);
    let text = '';
    while (i < ours.length && text.length < their.text.length) text += bare(ours[i++].text);
    assert.equal(text, their.text, `word ${i}, in the cue at ${their.start} s`);
    if (their.at === undefined) continue;
    // Difference: a time outside its cue, or before that of the word before, is moved to the nearest that is not.
    const expected = Math.max(last, Math.min(their.at, their.end));
    assert.ok(Math.abs(at - expected) < 0.0011, `${their.text}: ${at} s, the other reader has ${their.at} s`);
    last = at;
    times++;
  }
  assert.equal(i, ours.length, `${ours[i]?.text} is said by nobody`);
  return times;
}
