/** Remedies for a sheet of 200 lines: CPU time, and beside it that of a general-purpose solver. */
import { spawnSync } from 'node:child_process';
import { rmSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { build } from 'esbuild';

const row = (name, value, verdict = '') =>
  console.log(`  ${name.padEnd(34)}${value.padStart(12)}  ${verdict}`);

/** Prints the figures; answers whether both aims are met: 5 ms of CPU, a hundredth of the solver's. */
export const compareRemedies = async () => {
  // Inside node_modules, so that the solver's package is found from there.
  const outfile = join('node_modules', '.cache', 'tarebook-remedy-timing.mjs');
  await build({
    entryPoints: [fileURLToPath(new URL('./remedy-timing.ts', import.meta.url))],
    outfile,
    bundle: true,
    format: 'esm',
    platform: 'node',
    target: 'node20',
    packages: 'external',
  });
  try {
    const { stdout, stderr, status } = spawnSync(process.execPath, [outfile], { encoding: 'utf8' });
    if (status !== 0) throw new Error(stderr);
    const { lines, kinds, first, ours, theirs, difference } = JSON.parse(stdout);
    const isQuick = ours <= 5;
    const isAhead = theirs / ours >= 100;
    console.log(`\nRemedies for ${lines} lines, CPU: ${kinds.join(', ')}`);
    row('all six, median', `${ours.toFixed(2)} ms`, `at most 5 ms: ${isQuick ? 'met' : 'MISSED'}`);
    row('all six, first time in a process', `${first.toFixed(2)} ms`);
    row('solver, least stretch alone', `${theirs.toFixed(1)} ms`);
    row(
      'solver over ours',
      `${(theirs / ours).toFixed(0)} ×`,
      `at least 100: ${isAhead ? 'met' : 'MISSED'}`,
    );
    row('difference of the stretches', difference.toExponential(1));
    return isQuick && isAhead;
  } finally {
    rmSync(outfile, { force: true });
  }
};
