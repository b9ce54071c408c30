// Starts captally review in a folder of its own, and a browser page on it.
import { spawn } from 'node:child_process';
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { after } from 'node:test';
import { command } from './sessions.mjs';

const all = mkdtempSync(join(tmpdir(), 'captally-review-'));
process.on('exit', () => rmSync(all, { recursive: true, force: true }));

const running = new Set();
after(() => { // what a test that failed has left running would keep this program waiting
  for (const program of running) program.kill('SIGKILL');
});

/** A folder that is gone when the tests end. */
export const folder = () => mkdtempSync(join(all, 'one-'));

/** Starts the program; gives its first address, its configuration folder, and ways to end it. */
export async function serve(config, ...args) {
  const program = spawn(command, ['review', '--no-open', ...args], {
    stdio: ['ignore', 'pipe', 'pipe'], env: { ...process.env, HOME: config, XDG_CONFIG_HOME: config, AppData: config },
  });
  running.add(program);
  let said = '';
  program.stderr.on('data', (d) => { said += d; });
  const ended = new Promise((done) => { program.on('exit', (code, signal) => { running.delete(program); done({ code, signal }); }); });
  const address = await new Promise((done, fail) => {
    program.stdout.once('data', (d) => done(String(d).trim()));
    program.on('exit', () => fail(new Error(`captally review ended: ${said}`)));
  });
  return {
    address,
    ended,
    stop: () => { program.kill('SIGINT'); return ended; },
    kill: () => { program.kill('SIGKILL'); return ended; },
  };
}

/** Opens an address in a page of its own. What goes wrong in the page is thrown when it is closed. */
export async function visit(browser, address, options = {}) {
  const context = await browser.newContext({ viewport: { width: 1280, height: 900 }, ...options });
  const page = await context.newPage();
  const wrong = [];
  page.on('pageerror', (e) => wrong.push(e.message));
  page.on('request', (r) => { if (!/^(http:\/\/127\.0\.0\.1:|blob:|data:)/.test(r.url())) wrong.push(`asks for ${r.url()}`); });
  page.on('console', (m) => { if (m.type() === 'error' && !/status of (4|5)\d\d/.test(m.text())) wrong.push(m.text()); });
  await page.goto(address);
  return {
    page,
    async close() {
      await context.close();
      if (wrong.length > 0) throw new Error(wrong.join('\n'));
    },
  };
}

/** Waits until a session stands on the page. */
export async function shown(page) {
  await page.waitForSelector('#session:not([hidden])');
}

/** Drops a file on the page, as from the file manager. */
export const drop = (page, name, content) => dropAll(page, [[name, content]]);

/** Drops several at once: each its name, and its text or its bytes. */
export async function dropAll(page, files) {
  const transfer = await page.evaluateHandle((all) => {
    const d = new DataTransfer();
    for (const [name, content] of all) d.items.add(new File([typeof content === 'string' ? content : new Uint8Array(content)], name));
    return d;
  }, files);
  await page.dispatchEvent('#drop', 'drop', { dataTransfer: transfer });
}
