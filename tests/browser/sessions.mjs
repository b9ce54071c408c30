// Builds the command once and runs it on the labelled sessions.
import { execFileSync } from 'node:child_process';
import { mkdtempSync, readdirSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';

const root = fileURLToPath(new URL('../..', import.meta.url));
const folder = mkdtempSync(join(tmpdir(), 'captally-'));
process.on('exit', () => rmSync(folder, { recursive: true, force: true }));

const config = join(folder, 'config');
export const command = join(folder, process.platform === 'win32' ? 'captally.exe' : 'captally');
execFileSync('go', ['build', '-o', command, './cmd/captally'], { cwd: root });

const captions = join(root, 'corpus', 'sessions');

/** The names of the labelled sessions, sorted. */
export const sessions = readdirSync(captions).filter((f) => f.endsWith('.cue.srt')).map((f) => f.slice(0, -'.cue.srt'.length)).sort();

/** The notes of a session in one form, as text. Nobody's own profile is read. */
export function notes(session, form, ...flags) {
  const key = [session, form, ...flags].join('\n');
  if (!printed.has(key)) printed.set(key, run(session, form, flags));
  return printed.get(key);
}

const printed = new Map();

function run(session, form, flags) {
  return execFileSync(command, ['notes', '--as', form, ...flags, join(captions, `${session}.cue.srt`)], {
    encoding: 'utf8', env: { ...process.env, HOME: config, XDG_CONFIG_HOME: config, AppData: config }, maxBuffer: 1 << 26,
  });
}
