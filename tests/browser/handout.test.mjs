// The hand-out in a browser: what axe-core finds (WCAG 2.2 and its best practices), how it prints, how it reflows.
import assert from 'node:assert/strict';
import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { after, before, test } from 'node:test';
import { start, without } from './chromium.mjs';
import { notes, sessions } from './sessions.mjs';

const axe = readFileSync(createRequire(import.meta.url).resolve('axe-core/axe.min.js'), 'utf8');
const millimetre = 96 / 25.4;
const papers = { A4: [210, 297], Letter: [215.9, 279.4] };
const margin = 12; // as in the page's own @page rule

let browser;
before(async () => { if (!without) browser = await start(); });
after(async () => browser?.close());

async function open(session, size, ...flags) {
  const page = await browser.newPage({ viewport: size });
  await page.route('**/*', (route) => route.abort()); // it loads nothing
  await page.setContent(notes(session, 'handout', ...flags));
  return page;
}

async function violations(page) {
  await page.evaluate(axe);
  const found = await page.evaluate(() => globalThis.axe.run(document));
  assert.ok(found.passes.length > 10, 'axe looked at the page');
  return found.violations.map((v) => `${v.id}: ${v.nodes.map((n) => n.html).join(' ')}`);
}

test('axe finds a fault where there is one', { skip: without }, async () => {
  const page = await open(sessions[0], { width: 900, height: 1000 });
  await page.evaluate(() => document.querySelector('h1').insertAdjacentHTML('afterend', '<p style="color:#999">pale</p>'));
  assert.match((await violations(page)).join(), /color-contrast/);
  await page.close();
});

for (const session of sessions) {
  test(`hand-out of ${session}: accessible, wide and narrow`, { skip: without }, async () => {
    const page = await open(session, { width: 320, height: 640 });
    assert.deepEqual(await violations(page), []); // what axe sees is the same at every width
    for (const width of [320, 1200]) {
      await page.setViewportSize({ width, height: 900 });
      // WCAG 2.2, 1.4.10: no scrolling sideways at 320 px but for the tables
      assert.ok(await page.evaluate(() => document.documentElement.scrollWidth <= innerWidth), `wider than ${width} px`);
    }
    await page.close();
  });

  for (const [paper, [width, height]] of Object.entries(papers)) {
    test(`hand-out of ${session} on ${paper}`, { skip: without }, async () => {
      const inner = { width: Math.floor((width - 2 * margin) * millimetre), height: Math.floor((height - 2 * margin) * millimetre) };
      const page = await open(session, inner);
      await page.emulateMedia({ media: 'print' });
      const exercises = await page.locator('.exercise').count();
      const faults = await page.evaluate(({ width, height }) => {
        const out = [];
        for (const e of document.querySelectorAll('body *')) {
          const box = e.getBoundingClientRect();
          const size = parseFloat(getComputedStyle(e).fontSize);
          if (box.right > width + 0.5 || e.scrollWidth > e.clientWidth + 1 && e.clientWidth > 0) out.push(`beyond the edge: ${e.outerHTML.slice(0, 80)}`);
          if (size < 16) out.push(`type of ${size} px, under 12 pt: ${e.outerHTML.slice(0, 80)}`); // UKAAF G003: 12 pt at least
        }
        for (const e of document.querySelectorAll('.exercise, .cautions')) {
          if (getComputedStyle(e).breakInside !== 'avoid') out.push(`may be cut: ${e.className}`);
          if (e.getBoundingClientRect().height > height) out.push(`higher than a page: ${e.className}`);
        }
        return out;
      }, inner);
      assert.deepEqual(faults, []);
      const pdf = (await page.pdf({ format: paper })).toString('latin1');
      const pages = pdf.match(/\/Type\s*\/Page\b(?!s)/g).length;
      if (exercises <= 8) assert.ok(pages <= 2, `${exercises} exercises take ${pages} pages`);
      await page.close();
    });
  }
}

test('chapters load in a browser', { skip: without }, async () => {
  const page = await browser.newPage();
  for (const session of sessions) {
    const file = notes(session, 'chapters');
    const got = await page.evaluate((vtt) => new Promise((done, fail) => {
      const video = document.createElement('video');
      const track = Object.assign(document.createElement('track'), { kind: 'chapters', src: `data:text/vtt;charset=utf-8,${encodeURIComponent(vtt)}` });
      track.onload = () => done([...track.track.cues].map((c) => [c.startTime, c.text]));
      track.onerror = () => fail(new Error('the track does not load'));
      video.append(track);
      track.track.mode = 'hidden';
    }), file);
    assert.deepEqual(got.map(([at]) => at), JSON.parse(notes(session, 'json')).chapters.map((c) => c.start_s));
  }
  await page.close();
});
