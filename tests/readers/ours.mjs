// Builds the command once and reads caption files with it.
import { execFileSync } from 'node:child_process';
import { mkdtempSync, readdirSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';

const root = fileURLToPath(new URL('../..', import.meta.url));
const folder = mkdtempSync(join(tmpdir(), 'captally-'));
process.on('exit', () => rmSync(folder, { recursive: true, force: true }));

const command = join(folder, process.platform === 'win32' ? 'captally.exe' : 'captally');
execFileSync('go', ['build', '-o', command, './cmd/captally'], { cwd: root });

/** The caption files of the labelled sessions that end so, sorted. */
export function corpus(ending) {
  return ['sessions', 'more', 'recognised', 'more-recognised'].flatMap((name) => {
    const inside = join(root, 'corpus', name);
    return readdirSync(inside).filter((f) => f.endsWith(ending)).sort().map((f) => join(inside, f));
  });
}

/** The words of a text as the program reads them: [{text, at_s, cue}]. */
export const words = (text) => JSON.parse(read(text, 'json')).words;

/** The text as the program writes it as clean WebVTT. */
export const clean = (text) => read(text, 'vtt');

const read = (text, form) => execFileSync(command, ['words', '--as', form, '-'], { input: text, encoding: 'utf8', maxBuffer: 1 << 28 });
