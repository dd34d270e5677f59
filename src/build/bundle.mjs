/** Bundles the program into dist/, with the licences of what goes in. */
import { readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { build } from 'esbuild';
import { bundling } from './bundling.mjs';

const { version } = JSON.parse(readFileSync('package.json', 'utf8'));

const { metafile } = await build({
  ...bundling,
  entryPoints: { tarebook: 'src/cli/main.ts' },
  outdir: 'dist',
  metafile: true,
  define: { ...bundling.define, TAREBOOK_VERSION: JSON.stringify(version) },
});

// The licences of what is bundled ask that their text goes along.
const packages = new Set(
  Object.keys(metafile.inputs)
    .map(path => /^(?:.*\/)?node_modules\/((?:@[^/]+\/)?[^/]+)\//.exec(path)?.[0])
    .filter(folder => folder !== undefined),
);
const notices = [...packages].sort().map(folder => {
  const file = readdirSync(folder).find(name => /^licen[cs]e/i.test(name));
  const {
    name,
    version: of,
    license,
  } = JSON.parse(readFileSync(join(folder, 'package.json'), 'utf8'));
  return `${name} ${of} (${license})\n\n${file === undefined ? '' : readFileSync(join(folder, file), 'utf8').trim()}\n`;
});
writeFileSync('dist/THIRD-PARTY-NOTICES.txt', notices.join(`\n${'-'.repeat(72)}\n\n`));

// Removed last, so that there is a whole program at every moment.
const made = new Set([...Object.keys(metafile.outputs), 'dist/THIRD-PARTY-NOTICES.txt']);
for (const name of readdirSync('dist')) {
  if (!made.has(`dist/${name}`)) rmSync(join('dist', name), { recursive: true });
}
