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
import { build } from 'esbuild';
import { bundling } from './bundling.mjs';
import { compileAhead } from './code-ahead.mjs';
import { inkAtOnce } from './ink-at-once.mjs';

const { version } = JSON.parse(readFileSync('package.json', 'utf8'));

// The screens are loaded where one is shown; what prints lines never reads them.
const screensApart = {
  name: 'screens-apart',
  setup: ({ onResolve }) => {
    onResolve({ filter: /\/ui\/(screen|home)\.tsx$/ }, ({ kind }) =>
      kind === 'dynamic-import' ? { path: './screen.cjs', external: true } : undefined,
    );
  },
};

const parts = [
  { entryPoints: { tarebook: 'src/build/launcher.cjs' } },
  {
    entryPoints: { program: 'src/cli/main.ts' },
    define: { ...bundling.define, TAREBOOK_VERSION: JSON.stringify(version) },
    plugins: [screensApart],
  },
  {
    stdin: {
      contents: "export { startScreen } from './screen.tsx'; export { startHome } from './home.tsx';",
      resolveDir: 'src/ui',
      sourcefile: 'screen',
    },
    entryNames: 'screen',
    plugins: [inkAtOnce],
  },
];
const built = await Promise.all(
  parts.map(part => build({ ...bundling, ...part, outdir: 'dist', metafile: true, write: false })),
);

// The licences of what is bundled ask that their text goes along.
const packages = new Set(
  built
    .flatMap(({ metafile }) => Object.keys(metafile.inputs))
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

// Each file is put in the place of the former at once, so that there is a whole program at every moment.
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
for (const { path, contents } of built.flatMap(({ outputFiles }) => outputFiles).toReversed()) {
  put(basename(path), contents);
}

compileAhead('dist/tarebook.cjs');
for (const name of readdirSync('dist')) {
  if (!made.has(name.replace(/\.code$/, ''))) rmSync(join('dist', name), { recursive: true });
}
