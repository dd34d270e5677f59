/** The code that the build makes ahead: whatever becomes of it, the program answers the same. */
import { spawnSync } from 'node:child_process';
import { cpSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { describe, expect, test } from 'vitest';
import { program } from '../helpers/program.ts';
import { tempDir } from '../helpers/temp-dir.ts';

const sheet = 'sheets/lemon-salt-scrub.yaml';

/** Tells on standard error of each file whether V8 was given code made ahead, and took it. */
const watcher = `
const vm = require('node:vm');
vm.Script = class extends vm.Script {
  constructor(text, options) {
    super(text, options);
    const given = options.cachedData !== undefined;
    console.error(given ? (this.cachedDataRejected ? 'refused' : 'taken') : 'none');
  }
};`;

const copyOfProgram = (): string => {
  const folder = join(tempDir(), 'dist');
  cpSync(dirname(program), folder, { recursive: true });
  writeFileSync(join(folder, 'watcher.cjs'), watcher);
  return folder;
};

const answer = (folder: string, args: readonly string[]) => {
  const called = ['--require', join(folder, 'watcher.cjs'), join(folder, 'tarebook.cjs'), ...args];
  const home = tempDir();
  const { status, stdout, stderr } = spawnSync(process.execPath, called, {
    env: { PATH: process.env['PATH'] ?? '', HOME: home },
    encoding: 'utf8',
  });
  return { status, stdout, code: new Set(stderr.trim().split('\n')), left: readdirSync(home) };
};

const eachCode = (folder: string, change: (code: Buffer) => Buffer): void => {
  for (const name of readdirSync(folder).filter(name => name.endsWith('.code'))) {
    const path = join(folder, name);
    writeFileSync(path, change(readFileSync(path)));
  }
};

const flip = (code: Buffer, at: number): Buffer => {
  const changed = Buffer.from(code);
  changed.writeUInt8((changed[at] ?? 0) ^ 1, at);
  return changed;
};

const asBuilt = answer(copyOfProgram(), ['plan', sheet]);

describe('code made ahead', () => {
  test('is taken as the build left it, and nothing is written', () => {
    expect(asBuilt).toMatchObject({ status: 0, code: new Set(['taken']), left: [] });
  });

  // V8 refuses none of the first three by itself on Node 20.
  test.each<[string, (code: Buffer) => Buffer]>([
    ['damaged in one bit', code => flip(code, Math.floor(code.length / 2))],
    ['damaged at its head', code => flip(code, 40)],
    ['sealed for something else', code => flip(code, code.length - 1)],
    ['cut off', code => code.subarray(0, 1000)],
    ['empty', () => Buffer.alloc(0)],
  ])('that is %s is never given to V8, and the answer is the same', (_, change) => {
    const folder = copyOfProgram();
    eachCode(folder, change);
    const { status, stdout, code, left } = answer(folder, ['plan', sheet]);
    expect({ status, stdout, code, left }).toEqual({ ...asBuilt, code: new Set(['none']) });
  });

  test('of another text is not taken', () => {
    const folder = copyOfProgram();
    const path = join(folder, 'program.cjs');
    // As long as before: V8 compares no more than the length.
    const text = readFileSync(path, 'latin1').replace('print this help', 'PRINT THIS HELP');
    writeFileSync(path, text, 'latin1');
    const { stdout, code } = answer(folder, ['--help']);
    expect(stdout).toContain('PRINT THIS HELP');
    expect(code).toContain('none');
  });

  test('may be missing altogether', () => {
    const folder = copyOfProgram();
    for (const name of readdirSync(folder)) {
      if (name.endsWith('.code')) rmSync(join(folder, name));
    }
    expect(answer(folder, ['plan', sheet])).toEqual({ ...asBuilt, code: new Set(['none']) });
  });
});
