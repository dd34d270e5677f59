/**
 * Lets V8 compile what the usual starts need, by making them: each of these calls adds to the code that the
 * earlier ones have kept (keep-code.cjs). One that fails costs speed, never correctness, and is told.
 */
import { spawnSync } from 'node:child_process';
import { mkdtempSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';

const keeper = fileURLToPath(new URL('keep-code.cjs', import.meta.url));
const sheet = 'sheets/lemon-salt-scrub.yaml';
const batch = 'tests/fixtures/answers/lemon-salt-scrub.txt';
const screen = { TAREBOOK_SCREEN: '1' };
const interrupted = 130;

/** Keeps code beside each file of the built program. */
export const compileAhead = program => {
  const home = mkdtempSync(join(tmpdir(), 'tarebook-build-'));
  const start = (args, { keeps = true, input = '', env = {}, status = 0 } = {}) => {
    const ended = spawnSync(process.execPath, [...(keeps ? ['--require', keeper] : []), program, ...args], {
      env: { PATH: process.env.PATH, HOME: home, LC_ALL: 'C.UTF-8', ...env },
      input,
      encoding: 'utf8',
    });
    if (ended.status !== status) {
      console.warn(`tarebook ${args.join(' ')} answered ${ended.status}; starts will be slower.`);
    }
    return ended.stdout;
  };
  try {
    start(['--help']);
    start(['check', sheet]);
    const told = start(['run', sheet, '--practice', '--plain'], { keeps: false, input: readFileSync(batch, 'utf8') });
    start(['plan', sheet]);
    start(['verify', ...(/P-LSS-\d{4}-\d{3}/.exec(told) ?? [])]);
    start(['run', sheet, '--by', 'Ann Example'], { env: screen, status: interrupted });
    start([], { env: screen, status: interrupted });
  } finally {
    rmSync(home, { recursive: true, force: true });
  }
};
