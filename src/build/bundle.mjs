/** Bundles the program into dist/, with the code made ahead of it and the licences of what goes in. */
import {
  chmodSync,
  mkdirSync,
  readdirSync,
  readFileSync,
  renameSync,
  rmSync,
  writeFileSync,
} from 'node:fs';
import { basename, join } from 'node:path';
import { build, transform } from 'esbuild';
import { bundling } from './bundling.mjs';
import { compileAhead } from './code-ahead.mjs';
import { commanderAlone } from './commander-alone.mjs';
import { inkAtOnce } from './ink-at-once.mjs';

const { version } = JSON.parse(readFileSync('package.json', 'utf8'));
const common = { format: 'cjs', platform: 'node', target: 'node20', minify: true };

const { metafile, outputFiles } = await build({
  ...bundling,
  entryPoints: { program: 'src/cli/main.ts' },
  outdir: 'dist',
  outExtension: { '.js': '.cjs' },
  define: {
    ...bundling.define,
    TAREBOOK_VERSION: JSON.stringify(version),
    'import.meta.dirname': '__dirname',
  },
  plugins: [inkAtOnce, commanderAlone],
  metafile: true,
  write: false,
});
const launcher = await build({
  ...common,
  bundle: true,
  entryPoints: ['src/build/launcher.cjs'],
  write: false,
});

// The licences of what is bundled ask that their text goes along.
const packages = new Set(
  Object.keys(metafile.inputs)
    .map(path => /^(?:[^:]*\/)?node_modules\/((?:@[^/]+\/)?[^/]+)\//.exec(path)?.[0])
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

// Each file takes the place of the former at once, those that ask for others come after them, and what is
// left over is removed last: so there is a whole program at every moment.
mkdirSync('dist', { recursive: true });
const made = new Set();
const put = (name, contents) => {
  const fresh = join('dist', `${name}.${process.pid}`);
  writeFileSync(fresh, contents);
  if (name === 'tarebook.cjs') chmodSync(fresh, 0o755);
  renameSync(fresh, join('dist', name));
  made.add(name);
};
put('THIRD-PARTY-NOTICES.txt', notices.join(`\n${'-'.repeat(72)}\n\n`));
// Only modules can be split, and only CommonJS can be compiled ahead: first the one, then the other.
for (const { path, text } of outputFiles.toReversed()) {
  const { code } = await transform(text, { ...common, supported: { 'dynamic-import': false } });
  put(basename(path), code);
}
put('tarebook.cjs', launcher.outputFiles[0].contents);

compileAhead('dist');
for (const name of readdirSync('dist')) {
  if (!made.has(name.replace(/\.code$/, '')))
    rmSync(join('dist', name), { recursive: true, force: true });
}
