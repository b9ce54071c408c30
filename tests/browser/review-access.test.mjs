// The review page for everyone: what axe-core finds (WCAG 2.2 and its best practices) in each state, reflow at 320 px (1.4.10), text at 200 %
// (1.4.4), the size of targets (2.5.8), the strip beside its tables, and that the policy holds in a real browser.
import assert from 'node:assert/strict';
import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { after, before, test } from 'node:test';
import { start, without } from './chromium.mjs';
import { drop, folder, serve, shown, visit } from './review-server.mjs';

const axe = readFileSync(createRequire(import.meta.url).resolve('axe-core/axe.min.js'), 'utf8');
const corpus = new URL('../../corpus/sessions/', import.meta.url);
// The beginnings of two sessions: axe looks at every word, and takes ten seconds for a whole one.
const beginning = (name, lines) => readFileSync(new URL(name, corpus), 'utf8').split('\n').slice(0, lines).join('\n');
const clear = beginning('knee-weeks4.cue.srt', 330);
const heard = beginning('../recognised/knee-weeks4.cue.srt', 420);
const doubtful = beginning('walk-stronger.block.txt', 14);

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

async function violations(page) {
  await page.evaluate(axe);
  const found = await page.evaluate(() => globalThis.axe.run(document, { runOnly: ['wcag2a', 'wcag2aa', 'wcag21a', 'wcag21aa', 'wcag22aa', 'best-practice'] }));
  assert.ok(found.passes.length > 10, 'axe looked at the page');
  return found.violations.map((v) => `${v.id}: ${v.nodes.map((n) => n.html.slice(0, 160)).join(' ')}`);
}

const states = {
  empty: async () => {},
  session: async (page) => {
    await drop(page, 'knee.srt', clear);
    await shown(page);
    await page.waitForSelector('#findings .flag');
  },
  doubtful: async (page) => {
    await drop(page, 'walk.txt', doubtful);
    await shown(page);
    await page.waitForSelector('#findings .flag.unsure');
  },
  settled: async (page) => {
    await states.doubtful(page);
    await page.focus('#findings .finding');
    await page.keyboard.press('s');
    await page.waitForSelector('#findings .settled');
    await page.click('#decided summary');
  },
  'broken file': async (page) => {
    await drop(page, 'holiday.srt', 'not a word of time in here');
    await page.waitForSelector('#broken:not(:empty)');
  },
  'many mistakes of the captions': async (page) => {
    await drop(page, 'knee.srt', heard);
    await shown(page);
    await page.waitForSelector('#unfold:not([hidden])');
  },
  'form of a set': async (page) => {
    await states.session(page);
    await page.click('[aria-label^="Change set 2"]');
    await page.waitForSelector('dialog[open]');
  },
};

for (const [name, reach] of Object.entries(states)) {
  for (const [colorScheme, width] of [['light', 1280], ['dark', 320]]) { // each colour once, each width once
    test(`axe: ${name}, ${colorScheme}, ${width} px`, { skip: without }, async () => {
      const fresh = await serve(folder()); // nothing settled by another test
      const { page, close } = await visit(browser, fresh.address, { colorScheme, viewport: { width, height: 800 } });
      await reach(page);
      assert.deepEqual(await violations(page), []);
      assert.ok(await page.evaluate(() => document.documentElement.scrollWidth <= innerWidth), `it scrolls sideways at ${width} px`);
      await close();
      await fresh.stop();
    });
  }
}

test('axe finds a fault where there is one', { skip: without }, async () => {
  const { page, close } = await visit(browser, server.address);
  await page.evaluate(() => document.querySelector('h1').insertAdjacentHTML('afterend', '<button type="button"></button>'));
  assert.match((await violations(page)).join(), /button-name/);
  await close();
});

test('text at 200 %, targets of 24 px', { skip: without }, async () => {
  const { page, close } = await visit(browser, server.address, { viewport: { width: 1280, height: 900 } });
  await states.session(page);
  const small = () => page.evaluate(() => [...document.querySelectorAll('button, input, select, a, summary, textarea')].filter((e) => e.checkVisibility()).map((e) => [e, e.getBoundingClientRect()])
    .filter(([, b]) => b.width > 0 && (b.width < 24 || b.height < 24)).map(([e, b]) => `${e.outerHTML.slice(0, 80)} ${b.width}x${b.height}`));
  assert.deepEqual(await small(), []);
  await page.addStyleTag({ content: '' }).catch(() => {}); // refused by the policy, as it should be
  await page.evaluate(() => { document.documentElement.style.fontSize = '200%'; });
  assert.ok(await page.evaluate(() => document.documentElement.scrollWidth <= innerWidth), 'it scrolls sideways at 200 %');
  const cut = await page.evaluate(() => [...document.querySelectorAll('main button, main p, main dd, main label')]
    .filter((e) => e.checkVisibility() && e.scrollWidth > e.clientWidth + 1 && getComputedStyle(e).overflowX === 'hidden').map((e) => e.outerHTML.slice(0, 80)));
  assert.deepEqual(cut, []);
  await close();
});

test('the strip is to scale, and neither colour nor pointer is needed', { skip: without }, async () => {
  const { page, close } = await visit(browser, server.address);
  await states.session(page);
  const { sets, phases, looks, marks } = await page.evaluate(async () => {
    const state = await (await fetch(`/api/session/${new URLSearchParams(location.search).get('session')}`)).json();
    const box = document.querySelector('.phases').getBoundingClientRect();
    return {
      sets: state.sets.length,
      phases: state.phases.map((p, i) => {
        const b = document.querySelectorAll('.phases .phase')[i].getBoundingClientRect();
        return { off: b.left - box.left - (p.start_s / state.duration_s) * box.width, wide: b.width - ((p.end_s - p.start_s) / state.duration_s) * box.width };
      }),
      looks: [...document.querySelectorAll('#legend .phase')].map((e) => `${getComputedStyle(e).backgroundImage} ${e.className.includes('work') || e.className.includes('talk')}`),
      marks: [...document.querySelectorAll('.phases .phase')].map((e) => e.textContent).filter(Boolean),
    };
  });
  for (const p of phases) assert.ok(Math.abs(p.off) < 1 && Math.abs(p.wide) < 1, `a phase is ${p.off} px off, ${p.wide} px too wide`);
  assert.deepEqual(marks, Array.from({ length: sets }, (_, i) => `${i + 1}`), 'each set bears the number that it has in the table');
  const patterns = looks.map((l) => l.split(' true')[0]).filter((l) => !l.startsWith('none'));
  assert.equal(new Set(patterns).size, patterns.length, 'two kinds of phases have one pattern');
  assert.equal(await page.locator('#sets tbody tr').count(), sets);
  await close();
});

test('the policy holds: nothing foreign is asked, no inline script runs', { skip: without }, async () => {
  const { page, close } = await visit(browser, server.address);
  await page.waitForFunction(() => !location.search.includes('token'), null, { timeout: 5000 })
    .catch(() => {}); // it is told below
  const got = await page.evaluate(async () => {
    const s = document.createElement('script');
    s.textContent = 'globalThis.ran = true';
    document.head.append(s);
    const foreign = await fetch('http://127.0.0.2:9/').then(() => 'answered', () => 'refused');
    return { ran: globalThis.ran === true, foreign, cookie: document.cookie, address: location.href };
  });
  assert.deepEqual({ ran: got.ran, foreign: got.foreign, cookie: got.cookie }, { ran: false, foreign: 'refused', cookie: '' });
  assert.doesNotMatch(got.address, /token/, 'the secret stays in the address');
  await close().catch((e) => assert.match(e.message, /Content Security Policy|127\.0\.0\.2/));
});
