/**
 * How often a slip is named for what it is, and how often a real mispour is called one, from seeded
 * benches invented by chance (tests/core/slip/simulate.ts). Ends with 1 where an aim is missed.
 *
 *   node tests/bench/slips.mjs                 2000 of each, seed 1
 *   node tests/bench/slips.mjs 100000 7        so many, from that seed
 */
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { pathToFileURL } from 'node:url';
import { build } from 'esbuild';

const count = Number(process.argv[2] ?? 2000);
const seed = Number(process.argv[3] ?? 1);
const folder = mkdtempSync(join(tmpdir(), 'tarebook-slips-'));

const share = (part, all) => (all === 0 ? '–' : `${((100 * part) / all).toFixed(2)} %`);

try {
  const outfile = join(folder, 'simulate.mjs');
  await build({
    entryPoints: ['tests/core/slip/simulate.ts'],
    bundle: true,
    format: 'esm',
    platform: 'node',
    outfile,
    logLevel: 'error',
  });
  const { simulateKind, simulateMispours, slipKinds } = await import(pathToFileURL(outfile).href);
  console.log(`Slips, ${count} of each, seed ${seed}; at least 95 % named first`);
  const met = slipKinds.map(kind => {
    const { misread, named, refused, near } = simulateKind(kind, count, seed);
    console.log(
      `  ${kind.padEnd(16)}${String(misread).padStart(8)} misread, named ${share(named, misread).padStart(9)}  (refused sooner ${refused}, near ${near})`,
    );
    return misread > 0 && named >= 0.95 * misread;
  });
  const { mispours, called } = simulateMispours(count, seed);
  console.log(
    `  ${'real mispours'.padEnd(16)}${String(mispours).padStart(8)} within three widths, called a slip ${share(called, mispours)}; at most 2 %`,
  );
  process.exitCode = met.every(Boolean) && called <= 0.02 * mispours ? 0 : 1;
} finally {
  rmSync(folder, { recursive: true, force: true });
}
