// Captions and sounds made for the tests of the review page: an invented session as long as wanted, and silence to play beside it.

const stamp = (s) => new Date(Math.round(s * 1000)).toISOString().slice(11, 23);
const numbers = ['one', 'two', 'three', 'four', 'five', 'six', 'seven', 'eight', 'nine', 'ten'];
const moves = ['heel raises', 'wall push-ups', 'sit to stand', 'hip hinge', 'knee bends'];

/** A WebVTT file with so many counted sets; every fifth set leaves out a number, every seventh rest is short. */
export function longSession(sets) {
  const cues = [];
  let at = 2;
  const say = (text, length) => {
    cues.push(`${stamp(at)} --> ${stamp(at + length - 0.1)}\n${text}`);
    at += length;
  };
  say('Welcome to this session.', 4);
  for (let i = 0; i < sets; i++) {
    say(`Next is ${moves[Math.floor(i / 2) % moves.length]}, eight repetitions.`, 4);
    say('Ready, and go.', 2);
    for (let n = 0; n < 8; n++) {
      if (i % 5 === 4 && n === 4) continue;
      say(`${numbers[n][0].toUpperCase()}${numbers[n].slice(1)}.`, 2.5);
    }
    say('And rest. Twenty seconds rest.', 4);
    at += i % 7 === 6 ? 4 : 16;
  }
  say('Well done, that is the end.', 4);
  return `WEBVTT\n\n${cues.join('\n\n')}\n`;
}

/** A WAV file of so many seconds of silence: 8 kHz, 8 bit, one channel. (Multimedia Programming Interface and Data Specifications 1.0, IBM and Microsoft, 1991: RIFF, WAVE.) */
export function silence(seconds) {
  const rate = 8000;
  const data = Buffer.alloc(44 + rate * seconds, 0x80);
  data.write('RIFF', 0);
  data.writeUInt32LE(36 + rate * seconds, 4);
  data.write('WAVEfmt ', 8);
  data.writeUInt32LE(16, 16);
  data.writeUInt16LE(1, 20);
  data.writeUInt16LE(1, 22);
  data.writeUInt32LE(rate, 24);
  data.writeUInt32LE(rate, 28);
  data.writeUInt16LE(1, 32);
  data.writeUInt16LE(8, 34);
  data.write('data', 36);
  data.writeUInt32LE(rate * seconds, 40);
  return data;
}
