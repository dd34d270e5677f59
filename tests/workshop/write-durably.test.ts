import { readdirSync, readFileSync, statSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { expect, test } from 'vitest';
import { type Disk, ensureFolder, realDisk } from '../../src/workshop/disk.ts';
import { writeDurably } from '../../src/workshop/write-durably.ts';
import { failingDisk, systemError } from '../helpers/failing-disk.ts';
import { tempDir } from '../helpers/temp-dir.ts';

const old = Buffer.from('old');
const fresh = Buffer.from('fresh');

const withOld = (): string => {
  const path = join(tempDir(), 'record.json');
  writeFileSync(path, old);
  return path;
};

test('the file is synced before it gets its name, and the folder after', () => {
  const path = withOld();
  const calls: string[] = [];
  const noted =
    <A extends unknown[], R>(name: string, call: (...values: A) => R) =>
    (...values: A): R => {
      calls.push(name);
      return call(...values);
    };
  const disk: Disk = {
    ...realDisk,
    write: noted('write', realDisk.write),
    sync: noted('sync', realDisk.sync),
    rename: noted('rename', realDisk.rename),
  };
  writeDurably(disk, path, fresh);
  expect(calls).toEqual(['write', 'sync', 'rename', 'sync']);
  expect(readFileSync(path)).toEqual(fresh);
});

test('a mode is given from the first byte on', () => {
  const path = join(tempDir(), 'key.pem');
  writeDurably(realDisk, path, fresh, 0o600);
  expect(statSync(path).mode & 0o777).toBe(0o600);
});

test.each(['write', 'sync', 'rename', 'open'] as const)(
  'when %s fails the old file stands, and nothing is left beside it',
  call => {
    const path = withOld();
    const disk = failingDisk({
      [call]: () => {
        throw systemError('ENOSPC');
      },
    });
    expect(() => writeDurably(disk, path, fresh)).toThrow('ENOSPC');
    expect(readFileSync(path)).toEqual(old);
    expect(readdirSync(join(path, '..'))).toEqual(['record.json']);
  },
);

test('folders are made down to the last, and made again without harm', () => {
  const folder = join(tempDir(), 'a', 'b', 'c');
  ensureFolder(realDisk, folder);
  ensureFolder(realDisk, folder);
  expect(statSync(folder).isDirectory()).toBe(true);
});

test('a folder under a file cannot be made', () => {
  const path = withOld();
  expect(() => ensureFolder(realDisk, join(path, 'x'))).toThrow('ENOTDIR');
});
