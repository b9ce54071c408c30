// Seeing and hearing the moment of a finding: a video made here is played from the disk that captally was told of, and silence from the page's own file field.
import assert from 'node:assert/strict';
import { writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { after, before, test } from 'node:test';
import { start, without } from './chromium.mjs';
import { longSession, silence } from './review-captions.mjs';
import { folder, serve, shown, visit } from './review-server.mjs';
import { momentShown, numbered } from './review-webm.mjs';

const near = 0.2; // seconds

let browser;
let server;
const place = folder();
before(async () => {
  if (without) return;
  browser = await start();
  writeFileSync(join(place, 'long.vtt'), longSession(12));
  writeFileSync(join(place, 'long.wav'), silence(600));
  const drawing = await browser.newPage();
  writeFileSync(join(place, 'long.webm'), await numbered(drawing, 600));
  await drawing.close();
  server = await serve(place, join(place, 'long.vtt'), '--video', join(place, 'long.webm'));
});
after(async () => {
  await browser?.close();
  await server?.stop();
});

const stateOf = (page) => page.evaluate(async () => (await fetch(`/api/session/${new URLSearchParams(location.search).get('session')}`)).json());

/** Opens each finding in turn with the arrow and returns how far the video, by far(page), is from where it should start. */
async function distances(page, findings, far = (p) => p.evaluate(() => document.getElementById('player').currentTime)) {
  const off = [];
  for (const [i, f] of findings.entries()) {
    if (i === 0) await page.focus(`[data-key="finding-${f.key}"]`);
    await page.keyboard.press(i === 0 ? 'p' : 'ArrowDown');
    if (i === 0) await page.evaluate(() => document.getElementById('player').pause());
    await page.waitForFunction(() => !document.getElementById('player').seeking);
    off.push(Math.abs(await far(page) - f.play_s));
  }
  return off;
}

test('the video goes to four seconds before each finding, at half speed too', { skip: without }, async (t) => {
  const { page, close } = await visit(browser, server.address);
  await shown(page);
  await page.waitForFunction(() => document.getElementById('player').readyState > 0);
  const { findings } = await stateOf(page);
  assert.ok(findings.length >= 3, 'there are findings to go to');
  for (const f of findings) assert.ok(f.play_s <= f.at_s && f.at_s - f.play_s <= 4);
  const off = await distances(page, findings.slice(0, 5));
  t.diagnostic(`farthest from its moment: ${Math.max(...off).toFixed(3)} s of ${off.length}`);
  for (const d of off) assert.ok(d <= near, `${d} s off`);
  await page.click('#slow');
  assert.equal(await page.evaluate(() => document.getElementById('player').playbackRate), 0.5);
  assert.equal(await page.getAttribute('#slow', 'aria-pressed'), 'true');
  await close();
});

test('the picture at each finding is that of its moment, sent in parts', { skip: without }, async (t) => {
  const { page, close } = await visit(browser, server.address);
  const parts = [];
  page.on('response', (r) => { if (r.url().endsWith('/media')) parts.push(`${r.status()} ${r.headers()['content-range']}`); });
  await page.reload();
  await shown(page);
  await page.waitForFunction(() => document.getElementById('player').readyState > 1);
  const { findings } = await stateOf(page);
  const off = await distances(page, findings, (p) => momentShown(p, '#player'));
  t.diagnostic(`pictures farthest from their moment: ${Math.max(...off).toFixed(3)} s of ${off.length}, in ${parts.length} parts`);
  assert.ok(off.length >= 3, 'there are findings to go to');
  for (const d of off) assert.ok(d <= near, `the picture is ${d} s off`);
  assert.ok(parts.length > 0 && parts.every((p) => p.startsWith('206 bytes ')), `answered with ${parts.join(', ')}`);
  await close();
});

test('the words follow the video, and the count is told as it is spoken', { skip: without }, async () => {
  const { page, close } = await visit(browser, server.address);
  await shown(page);
  await page.waitForFunction(() => document.getElementById('player').readyState > 0);
  const state = await stateOf(page);
  const words = await page.evaluate(async () => (await fetch(`/api/session/${new URLSearchParams(location.search).get('session')}/words`)).json());
  const mark = state.marks[3];
  await page.evaluate((at) => { document.getElementById('player').currentTime = at; }, words.words[mark.word][1] + 0.1);
  await page.waitForFunction((text) => document.getElementById('count').textContent === text, mark.text);
  assert.match(await page.textContent('#words .now'), /^four/i);
  await close();
});

test('a file chosen on the page plays, and nothing of it is sent', { skip: without }, async (t) => {
  const other = await serve(folder(), join(place, 'long.vtt'));
  const { page, close } = await visit(browser, other.address);
  await shown(page);
  let sent = 0;
  page.on('request', (r) => { sent += r.postDataBuffer()?.length ?? 0; });
  await page.setInputFiles('#video', join(place, 'long.wav'));
  await page.waitForFunction(() => document.getElementById('player').readyState > 0);
  const { findings } = await stateOf(page);
  const off = await distances(page, findings.slice(0, 3));
  t.diagnostic(`farthest from its moment: ${Math.max(...off).toFixed(3)} s of ${off.length}`);
  for (const d of off) assert.ok(d <= near, `${d} s off`);
  assert.ok(sent < 1000, `${sent} bytes were sent`);
  await close();
  await other.stop();
});

test('without a video the words of the moment come into view', { skip: without }, async () => {
  const other = await serve(folder(), join(place, 'long.vtt'));
  const { page, close } = await visit(browser, other.address);
  await shown(page);
  const { findings } = await stateOf(page);
  await page.focus(`[data-key="finding-${findings[0].key}"]`);
  await page.keyboard.press('ArrowDown');
  const place1 = await page.evaluate(() => {
    const box = document.getElementById('words').getBoundingClientRect();
    const line = document.querySelector('#words .here').getBoundingClientRect();
    return { inside: line.top >= box.top && line.bottom <= box.bottom, clock: document.querySelector('#words .here .time').textContent };
  });
  assert.ok(place1.inside, 'the line of the moment is not in view');
  const seconds = (c) => c.split(':').reduce((s, x) => 60 * s + Number(x), 0);
  assert.ok(Math.abs(seconds(place1.clock) - findings[1].at_s) <= 5, `${place1.clock} is shown for ${findings[1].clock}`);
  await close();
  await other.stop();
});

test('a file that no browser plays is told, and the words stay', { skip: without }, async () => {
  const other = await serve(folder(), join(place, 'long.vtt'));
  const { page, close } = await visit(browser, other.address);
  await shown(page);
  await page.setInputFiles('#video', { name: 'film.mkv', mimeType: 'video/x-matroska', buffer: Buffer.from('nothing to see') });
  await page.waitForSelector('#video-fault:not(:empty)');
  assert.equal(await page.isVisible('#player'), false);
  assert.ok(await page.isVisible('#words'));
  await close();
  await other.stop();
});
