/** Bundles the program into dist/: split by command, minified, with React in production. */
import { readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { build } from 'esbuild';

const { version } = JSON.parse(readFileSync('package.json', 'utf8'));

rmSync('dist', { recursive: true, force: true });
const { metafile } = await build({
  entryPoints: { tarebook: 'src/cli/main.ts' },
  outdir: 'dist',
  outExtension: { '.js': '.mjs' },
  bundle: true,
  splitting: true,
  format: 'esm',
  platform: 'node',
  target: 'node20',
  minify: true,
  metafile: true,
  // Only loaded by Ink when DEV is set, and never installed.
  external: ['react-devtools-core'],
  define: { 'process.env.NODE_ENV': '"production"', TAREBOOK_VERSION: JSON.stringify(version) },
  // The names must be unusual: the minifier picks short ones itself.
  banner: {
    js: "import{createRequire as __tarebookRequire}from'node:module';const require=__tarebookRequire(import.meta.url);",
  },
  logLevel: 'warning',
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
