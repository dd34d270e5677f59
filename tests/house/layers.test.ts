/** The rules between the rooms hold, and the linter that watches them does bite. */
import { spawnSync } from 'node:child_process';
import { copyFileSync, mkdirSync, readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { dirname, join, resolve } from 'node:path';
import { describe, expect, it } from 'vitest';
import { tempDir } from '../helpers/temp-dir.ts';

const linter = resolve('node_modules/.bin/oxlint');

/** What the project's lint says of one file in a house that holds nothing else. */
const lint = (
  path: string,
  text: string,
): { readonly status: number | null; readonly said: string } => {
  const house = tempDir();
  copyFileSync('.oxlintrc.json', join(house, '.oxlintrc.json'));
  mkdirSync(join(house, dirname(path)), { recursive: true });
  writeFileSync(join(house, path), text);
  const { status, stdout } = spawnSync(linter, ['--deny-warnings'], {
    cwd: house,
    encoding: 'utf8',
  });
  return { status, said: stdout };
};

const importing = (what: string): string =>
  `import { thing } from '${what}';\n\nexport const planted = thing;\n`;

describe('the linter', () => {
  it.each([
    ['src/core/run/planted.ts', 'node:fs', 'core is pure'],
    ['src/core/run/planted.ts', 'react', 'core knows no face'],
    ['src/core/run/planted.ts', '../../workshop/disk.ts', 'core imports nothing outward'],
    ['src/core/run/planted.ts', 'zod/mini', 'yaml belongs to'],
    ['src/core/sheet/read-yaml.ts', 'node:fs', 'core is pure'],
    ['src/ui/planted.tsx', '../workshop/disk.ts', 'a face imports core only'],
    ['src/ui/view/planted.ts', '../../plain/plain.ts', 'a face imports core only'],
    ['src/plain/planted.ts', 'ink', 'plain mode loads no React'],
    ['src/plain/planted.ts', '../ui/screen.tsx', 'a face imports core only'],
    ['src/workshop/planted.ts', '../cli/stop.ts', 'workshop imports core only'],
    ['src/workshop/export/planted.ts', 'react', 'the workshop has no face'],
    ['src/workshop/verify/planted.ts', '../../core/run/evolve.ts', 'does not share the code'],
  ])('refuses in %s an import of %s', (path, what, message) => {
    const { status, said } = lint(path, importing(what));
    expect(said).toContain('no-restricted-imports');
    expect(said).toContain(message);
    expect(status).not.toBe(0);
  });

  it.each(['new Date()', 'Math.random()', 'process.cwd()', 'setTimeout(() => {}, 1)'])(
    'refuses %s in core',
    expression => {
      const { status, said } = lint(
        'src/core/run/planted.ts',
        `export const planted = (): unknown => ${expression};\n`,
      );
      expect(said).toMatch(/no-restricted-(?:globals|properties)/);
      expect(status).not.toBe(0);
    },
  );

  it.each([
    ['src/core/run/planted.ts', '../quantity/quantity.ts'],
    ['src/ui/planted.tsx', '../core/run/state.ts'],
    ['src/workshop/planted.ts', 'node:fs'],
    ['src/cli/planted.ts', '../workshop/disk.ts'],
  ])('has nothing against %s importing %s', (path, what) => {
    expect(lint(path, importing(what))).toMatchObject({ status: 0 });
  });
});

const importsUnder = (folder: string): ReadonlyMap<string, readonly string[]> =>
  new Map(
    readdirSync(folder, { recursive: true, encoding: 'utf8' })
      .filter(name => /\.tsx?$/.test(name))
      .map(name => [
        name,
        [
          ...readFileSync(join(folder, name), 'utf8').matchAll(
            /(?:from|import\(|import) ?'([^']+)'/g,
          ),
        ].map(([, what = '']) => what),
      ]),
  );

describe('core', () => {
  it('imports nothing but itself, yaml in one file and zod in one', () => {
    const outward = [...importsUnder('src/core')].flatMap(([file, imports]) =>
      imports.filter(what => !what.startsWith('.')).map(what => `${file} ${what}`),
    );
    expect(outward.sort()).toEqual(['run/event-codec.ts zod/mini', 'sheet/read-yaml.ts yaml']);
  });
});

describe('cli', () => {
  it('is imported by no other room', () => {
    for (const room of ['core', 'workshop', 'ui', 'plain']) {
      const inward = [...importsUnder(`src/${room}`).values()].flat();
      expect(inward.filter(what => what.includes('/cli/'))).toEqual([]);
    }
  });
});
