/**
 * Start-up times, side by side: each command of the built program against an empty node, and the first
 * frame of the screen against a one-line Ink program that is bundled as one usually does. The repetitions
 * of all are interleaved, so that a busy machine slows all of them. Then remedies against a solver.
 * Ends with 1 where an aim is missed.
 *
 *   npm run bench            as many repetitions as usual
 *   npm run bench -- 40      that many
 */
import { spawnSync } from 'node:child_process';
import { mkdtempSync, readFileSync, rmSync } from 'node:fs';
import { createRequire } from 'node:module';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { spawn } from '@lydell/node-pty';
import { build } from 'esbuild';
import { bundling } from '../../src/build/bundling.mjs';
import { compareRemedies } from './remedy.mjs';

const { Terminal } = createRequire(import.meta.url)('@xterm/headless');

const count = Number(process.argv[2] ?? 21);
const folder = mkdtempSync(join(tmpdir(), 'tarebook-bench-'));
const program = 'dist/tarebook.cjs';
const twoCommonScales = '';
const sheet = 'sheets/lemon-salt-scrub.yaml';

const {
  CI: _ci,
  CONTINUOUS_INTEGRATION: _integration,
  TAREBOOK_WORKSHOP: _workshop,
  TAREBOOK_KEYS: _keys,
  ...inherited
} = process.env;
const env = {
  ...inherited,
  HOME: folder,
  XDG_CONFIG_HOME: join(folder, 'config'),
  XDG_DATA_HOME: join(folder, 'data'),
  TERM: 'xterm-256color',
  LC_ALL: 'C.UTF-8',
};

/** Runs node to its end; throws where it does not answer 0. */
const runNode = (args, input = '') => {
  const { status, stdout, stderr } = spawnSync(process.execPath, args, {
    env,
    input,
    encoding: 'utf8',
  });
  if (status !== 0) throw new Error(`${args.join(' ')} answered ${status}:\n${stdout}${stderr}`);
  return stdout;
};

const milliseconds = async work => {
  const begun = performance.now();
  await work();
  return performance.now() - begun;
};

const command = args => () => milliseconds(() => runNode(args));

const rowsOf = terminal =>
  Array.from({ length: terminal.rows }, (_, row) =>
    terminal.buffer.active.getLine(row).translateToString(true),
  ).join('\n');

/** Starts node in a real terminal of 80 × 24 until its screen holds the text. */
const firstFrame = (args, text) => () => {
  const terminal = new Terminal({ cols: 80, rows: 24, allowProposedApi: true });
  return milliseconds(() =>
    new Promise((resolve, reject) => {
      const pty = spawn(process.execPath, args, {
        name: 'xterm-256color',
        cols: 80,
        rows: 24,
        env,
      });
      const late = setTimeout(() => {
        pty.kill('SIGKILL');
        reject(new Error(`never saw ${text}:\n${rowsOf(terminal)}`));
      }, 20_000);
      terminal.onData(answer => pty.write(answer));
      pty.onData(data =>
        terminal.write(data, () => {
          if (!rowsOf(terminal).includes(text)) return;
          clearTimeout(late);
          resolve(pty);
        }),
      );
    }).then(pty => pty.kill('SIGKILL')),
  );
};

const median = times => {
  const sorted = [...times].sort((a, b) => a - b);
  const middle = Math.floor(sorted.length / 2);
  return sorted.length % 2 === 1 ? sorted[middle] : (sorted[middle - 1] + sorted[middle]) / 2;
};

/** Prints one line a contestant: median in milliseconds, ratio to the first one, aim. */
const compare = async (title, contestants) => {
  const times = contestants.map(() => []);
  for (const { measure } of contestants) await measure();
  for (let round = 0; round < count; round += 1) {
    for (const [index, { measure }] of contestants.entries()) times[index].push(await measure());
  }
  const medians = times.map(median);
  console.log(`\n${title}, medians of ${count}`);
  const verdicts = contestants.map(({ name, most }, index) => {
    const ratio = medians[index] / medians[0];
    const verdict =
      most === undefined ? '' : `at most ${most}: ${ratio <= most ? 'met' : 'MISSED'}`;
    console.log(
      `  ${name.padEnd(16)}${medians[index].toFixed(1).padStart(8)} ms${ratio.toFixed(2).padStart(7)} ×  ${verdict}`,
    );
    return most === undefined || ratio <= most;
  });
  return verdicts.every(Boolean);
};

/** A real batch, made in plain mode with two scales entered: the workshop as it is every day. */
const signedBatch = () => {
  const answers = readFileSync('tests/fixtures/answers/lemon-salt-scrub.txt', 'utf8');
  const [name, ...others] = answers.split('\n');
  const told = runNode(
    [program, 'run', sheet, '--plain'],
    [name, twoCommonScales, ...others].join('\n'),
  );
  return /LSS-\d{4}-\d{3}/.exec(told)[0];
};

// With the program's own options of esbuild, but Ink as it comes: modules that await at their top level,
// and nothing compiled ahead.
const oneLine = async () => {
  await build({
    ...bundling,
    entryPoints: { 'one-line': 'tests/bench/one-line.mjs' },
    outdir: folder,
    outExtension: { '.js': '.mjs' },
    // Only loaded by Ink when DEV is set, and never installed.
    external: ['react-devtools-core'],
    banner: {
      js: "import{createRequire as __benchRequire}from'node:module';const require=__benchRequire(import.meta.url);",
    },
  });
  return join(folder, 'one-line.mjs');
};

try {
  const batch = signedBatch();
  const lines = await compare('Commands', [
    { name: 'node -e 0', measure: command(['-e', '0']) },
    { name: '--help', most: 1.3, measure: command([program, '--help']) },
    { name: 'check', most: 1.8, measure: command([program, 'check', sheet]) },
    { name: 'plan', most: 1.8, measure: command([program, 'plan', sheet]) },
    { name: 'verify', most: 1.8, measure: command([program, 'verify', batch]) },
  ]);
  const screen = [program, 'run', sheet, '--practice', '--by', 'Ann Example'];
  const frames = await compare('First frame at 80 × 24', [
    { name: 'one line of Ink', measure: firstFrame([await oneLine()], 'One line.') },
    { name: 'run', most: 1.5, measure: firstFrame(screen, 'to weigh in') },
  ]);
  const remedies = await compareRemedies();
  process.exitCode = lines && frames && remedies ? 0 : 1;
} finally {
  rmSync(folder, { recursive: true, force: true });
}
