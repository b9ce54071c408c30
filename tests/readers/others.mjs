// Three readers that share no code with the program, each giving cues [{start, end, lines: [[{text, at}]]}]: lines of pieces of text,
// with the time at which a piece begins where the file gives one.
import { parseText } from 'media-captions';
import { parse } from '@plussub/srt-vtt-parser';
import webvtt from 'webvtt-parser';

/** SubRip by media-captions. It leaves tags and references in the text; they are taken out here. */
export async function mediaCaptions(text) {
  const { cues } = await parseText(text, { type: 'srt' });
  return cues.map((c) => ({ start: c.startTime, end: c.endTime, lines: plainLines(c.text) }));
}

/** SubRip by @plussub/srt-vtt-parser, likewise. It knows no carriage returns and no byte order mark. */
export function plusSub(text) {
  return parse(text.replace(/^\uFEFF/, '').replace(/\r\n?/g, '\n')).entries.map((e) => ({ start: e.from / 1000, end: e.to / 1000, lines: plainLines(e.text) }));
}

const plainLines = (text) => text.replace(/<[^<>]*>|\{\\[^}]*\}/g, '').split('\n').map((line) => [{ text: unescape(line) }]);

const unescape = (s) => s.replace(/&(lt|gt|amp|nbsp);/g, (_, name) => ({ lt: '<', gt: '>', amp: '&', nbsp: ' ' })[name]);

/** WebVTT by webvtt-parser, the W3C's. */
export function w3c(text) {
  const { cues, errors } = new webvtt.WebVTTParser().parse(text, 'subtitles');
  const read = cues.map((c) => {
    const lines = [[]];
    let at;
    const walk = (node) => {
      if (node.type === 'timestamp') at = node.value;
      if (node.type === 'text') {
        node.value.split('\n').forEach((s, i) => {
          if (i > 0) lines.push([]);
          lines.at(-1).push({ text: s, at });
          if (s.trim()) at = undefined;
        });
      }
      (node.children ?? []).forEach(walk);
    };
    walk(c.tree);
    return { start: c.startTime, end: c.endTime, lines };
  });
  return { cues: read, errors };
}
