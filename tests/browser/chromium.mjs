// Starts a Chromium that is installed on this machine. CHROMIUM names one that stands elsewhere.
import { existsSync } from 'node:fs';
import { chromium } from 'playwright-core';

const places = [
  process.env.CHROMIUM, '/usr/bin/chromium', '/usr/bin/chromium-browser', '/usr/bin/google-chrome', '/usr/bin/google-chrome-stable',
  '/Applications/Chromium.app/Contents/MacOS/Chromium', '/Applications/Google Chrome.app/Contents/MacOS/Google Chrome',
];

/** The path of a Chromium; undefined where there is none. */
export const path = places.find((p) => p && existsSync(p));

/** Why a test that needs a browser is skipped; false where it need not be. */
export const without = path ? false : 'there is no Chromium on this machine (on Debian: apt-get install chromium; elsewhere name it in CHROMIUM)';

export function start() {
  return chromium.launch({
    executablePath: path,
    args: ['--no-sandbox', '--disable-gpu', '--no-first-run', '--disable-background-networking', '--disable-component-update', '--disable-sync'],
  });
}
