/**
 * Lets V8 compile what the usual starts need, by making them: each of these calls adds to the code that the
 * earlier ones have kept (keep-code.cjs). One that fails costs speed, never correctness, and is told.
 */
import { spawnSync } from 'node:child_process';
import { mkdtempSync, readdirSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';

const keeping = ['--require', fileURLToPath(new URL('keep-code.cjs', import.meta.url))];
const sheet = 'sheets/lemon-salt-scrub.yaml';
const answers = 'tests/fixtures/answers/lemon-salt-scrub.txt';
const twoCommonScales = '';
const screen = { env: { TAREBOOK_SCREEN: '1' }, status: 130 };

/** Keeps code beside each file of the program in the folder. */
export const compileAhead = folder => {
  const home = mkdtempSync(join(tmpdir(), 'tarebook-build-'));
  const start = (args, { keeps = true, input = '', env = {}, status = 0 } = {}) => {
    const called = [...(keeps ? keeping : []), join(folder, 'tarebook.cjs'), ...args];
    const ended = spawnSync(process.execPath, called, {
      env: { PATH: process.env.PATH, HOME: home, LC_ALL: 'C.UTF-8', ...env },
      input,
      encoding: 'utf8',
      timeout: 30_000,
    });
    if (ended.status !== status) {
      console.warn(`tarebook ${args.join(' ')} answered ${ended.status}: starts will be slower.`);
    }
    return ended.stdout;
  };
  for (const name of readdirSync(folder)) {
    if (name.endsWith('.code')) rmSync(join(folder, name), { force: true });
  }
  try {
    start(['--help']);
    start(['check', sheet]);
    start(['run', sheet, '--by', 'Ann Example'], screen);
    const [name, ...others] = readFileSync(answers, 'utf8').split('\n');
    const input = [name, twoCommonScales, ...others].join('\n');
    const told = start(['run', sheet, '--plain'], { keeps: false, input });
    start(['plan', sheet]);
    start(['verify', ...(/LSS-\d{4}-\d{3}/.exec(told) ?? [])]);
    start([], screen);
  } finally {
    rmSync(home, { recursive: true, force: true });
  }
};
