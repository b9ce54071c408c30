// What people do with a page besides what it is made for: drop the wrong thing, go back, reload in the middle of a word, keep two tabs open.
// Each is told in a sentence, and nothing is lost.
import assert from 'node:assert/strict';
import { readFileSync } from 'node:fs';
import { after, before, test } from 'node:test';
import { start, without } from './chromium.mjs';
import { longSession, silence } from './review-captions.mjs';
import { drop, dropAll, folder, serve, shown, visit } from './review-server.mjs';

const recognised = readFileSync(new URL('../../corpus/recognised/knee-weeks4.cue.srt', import.meta.url), 'utf8');
const short = longSession(8);

let browser;
let server;
before(async () => {
  if (without) return;
  browser = await start();
  server = await serve(folder());
});
after(async () => {
  await browser?.close();
  await server?.stop();
});

const told = (page, what) => page.waitForFunction((w) => `${document.getElementById('broken').textContent} ${document.getElementById('said').textContent}`.includes(w), what);

test('the wrong thing dropped is told, and an open session stays', { skip: without }, async () => {
  const { page, close } = await visit(browser, server.address);
  await drop(page, 'empty.srt', '');
  await told(page, 'empty.srt is empty.');
  await drop(page, 'film.mp4', 'moving');
  await told(page, 'film.mp4 is the video or the sound itself');
  await dropAll(page, [['a.srt', short], ['b.srt', short]]);
  await told(page, 'drop one caption file');
  assert.ok(await page.isVisible('#welcome'));
  await drop(page, 'Übung 膝.vtt', short);
  await shown(page);
  assert.match(await page.textContent('#facts'), /^Übung 膝\.vtt, /);
  await drop(page, 'letter.txt', 'Dear all');
  await told(page, 'letter.txt: no times found');
  assert.ok(await page.isVisible('#session'), 'the session that was open is gone');
  const { fault, gone } = await page.evaluate(async () => {
    const { sort } = await import('/page/drop.js');
    const { open } = await import('/page/server.js');
    const isFolder = { kind: 'file', webkitGetAsEntry: () => ({ isDirectory: true }) };
    const vanished = { name: 'away.srt', size: 9, arrayBuffer: () => Promise.reject(new DOMException('gone', 'NotFoundError')) };
    return { fault: sort({ items: [isFolder], files: [new File([], 'clinic')] }, 9, false).fault, gone: await open(vanished).catch((e) => e.message) };
  });
  assert.match(fault, /That is a folder/);
  assert.match(gone, /away\.srt cannot be read\. It may have been moved or deleted/);
  await close();
});

test('a video dropped with its captions plays beside them', { skip: without }, async () => {
  const { page, close } = await visit(browser, server.address);
  await dropAll(page, [['long.wav', [...silence(2)]], ['long.vtt', short]]);
  await shown(page);
  await page.waitForFunction(() => document.getElementById('player').readyState > 0);
  assert.ok(await page.isVisible('#player'));
  await close();
});

test('Back and Forward go between the sessions, a reload stays', { skip: without }, async () => {
  const { page, close } = await visit(browser, server.address);
  await drop(page, 'long.vtt', short);
  await shown(page);
  await page.click('#parts a[href="#notes-part"]');
  await page.reload();
  await shown(page);
  await page.goBack();
  await page.goBack();
  await page.waitForSelector('#welcome:not([hidden])');
  await page.goForward();
  await shown(page);
  await close();
});

test('a reload in the middle of writing keeps what was written', { skip: without }, async () => {
  const { page, close } = await visit(browser, server.address);
  await drop(page, 'long.vtt', short);
  await shown(page);
  await page.focus('#notes');
  await page.keyboard.press('Control+Home');
  await page.keyboard.type('For Tuesdays. ');
  await page.reload(); // before the pause after which it is kept
  await shown(page);
  await page.waitForFunction(() => document.getElementById('notes').value.startsWith('For Tuesdays. '));
  await close();
});

test('what is decided in one tab is shown in the other when it is looked at', { skip: without }, async () => {
  const own = await serve(folder());
  const { page, close } = await visit(browser, own.address);
  await drop(page, 'long.vtt', short);
  await shown(page);
  const other = await page.context().newPage();
  await other.goto(page.url());
  await shown(other);
  await other.focus('#findings .finding');
  await other.keyboard.press('s');
  await other.waitForSelector('#findings .settled');
  assert.equal(await page.locator('#findings .settled').count(), 0);
  await page.evaluate(() => window.dispatchEvent(new Event('focus')));
  await page.waitForSelector('#findings .settled');
  await close();
  await own.stop();
});

test('an edit that does not fit is refused in its form; a set that was none is taken out, and comes back', { skip: without }, async () => {
  const own = await serve(folder());
  const { page, close } = await visit(browser, own.address);
  await drop(page, 'long.vtt', short);
  await shown(page);
  await page.click('[aria-label^="Change set 2,"]');
  await page.fill('#field-end', '3:00');
  await page.click('dialog button.main');
  await page.waitForSelector('dialog .fault:not(:empty)');
  assert.match(await page.textContent('dialog .fault'), /^Nothing was kept: it would run into the set at \d+:\d\d\.$/);
  assert.equal(await page.inputValue('#field-end'), '3:00', 'what was typed stays');
  await page.click('text=There was no such set');
  await page.waitForSelector('dialog:not([open])', { state: 'attached' });
  assert.equal(await page.locator('#sets tbody tr').count(), 7);
  await page.click('#undo');
  await page.waitForFunction(() => document.querySelectorAll('#sets tbody tr').length === 8);
  await close();
  await own.stop();
});

test('dozens of mistakes of the captions are folded away, shown on demand and agreed with at one press', { skip: without }, async () => {
  const own = await serve(folder());
  const { page, close } = await visit(browser, own.address);
  await drop(page, 'knee.srt', recognised);
  await shown(page);
  const shownNow = () => page.locator('#findings > li:not(.settled)').count();
  const few = await shownNow();
  await page.click('#unfold');
  const all = await shownNow();
  assert.ok(few < 10 && all > 40, `${few} of ${all} are shown`);
  assert.equal(await page.getAttribute('#unfold', 'aria-expanded'), 'true');
  await page.click('#agree');
  await page.waitForSelector('#faults', { state: 'hidden' });
  assert.equal(await shownNow(), few);
  await page.click('#undo');
  await page.waitForSelector('#faults:not([hidden])');
  assert.equal(await shownNow(), all);
  await close();
  await own.stop();
});
