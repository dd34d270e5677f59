import { readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { hostname } from 'node:os';
import { join } from 'node:path';
import { beforeAll, describe, expect, test } from 'vitest';
import { realDisk } from '../../src/workshop/disk.ts';
import { acquireLock, type LockWish, withLock } from '../../src/workshop/lock.ts';
import { ourselves, readHolder } from '../../src/workshop/lock-holder.ts';
import { cases } from '../helpers/cases.ts';
import { buildChild, startChild } from '../helpers/child.ts';
import { failingDisk, systemError } from '../helpers/failing-disk.ts';
import { tempDir } from '../helpers/temp-dir.ts';

// Invented data throughout.
const wish: LockWish = { what: 'Batch INV-2027-001', program: 'tarebook 0', since: '2027-03-04' };
const lockPath = (): string => join(tempDir(), 'lock');
const us = ourselves('tarebook 0', '2027-03-04');
const leave = (path: string, change: Partial<typeof us>): void =>
  writeFileSync(path, `${JSON.stringify({ ...us, ...change })}\n`);
const uuid = (n: number): string => `00000000-0000-4000-8000-${String(n).padStart(12, '0')}`;

const taken = (path: string, more: Partial<LockWish> = {}) => {
  const lock = acquireLock(realDisk, path, { ...wish, ...more });
  if (!lock.ok) throw new Error(lock.why);
  return lock.value;
};

let child = '';
beforeAll(() => {
  child = buildChild('tests/workshop/children/hold-lock.ts');
});

describe('one process', () => {
  test('takes a lock, is refused it a second time, gives it back, and takes it again', () => {
    const path = lockPath();
    const lock = taken(path);
    expect(acquireLock(realDisk, path, wish)).toEqual({
      ok: false,
      why: `Batch INV-2027-001 is in use on this computer by tarebook 0, process ${process.pid}, since 2027-03-04. Leave it there first.`,
    });
    lock.release();
    expect(readdirSync(join(path, '..'))).toEqual([]);
    taken(path).release();
  });

  test('gives a lock of the moment back even when the work fails', () => {
    const path = lockPath();
    expect(() =>
      withLock(realDisk, path, wish, () => {
        throw new Error('invented');
      }),
    ).toThrow('invented');
    taken(path).release();
  });

  test('does not give back what another has taken in the meantime', () => {
    const path = lockPath();
    const lock = taken(path);
    leave(path, { id: uuid(1) });
    lock.release();
    expect(readHolder(readFileSync(path))?.id).toBe(uuid(1));
  });

  test('says so when the folder takes no lock', () => {
    const disk = failingDisk({
      link: () => {
        throw systemError('EROFS');
      },
    });
    expect(acquireLock(disk, lockPath(), wish)).toEqual({
      ok: false,
      why: 'Batch INV-2027-001 could not be locked: the disk can only be read.',
    });
  });
});

describe('a lock that was left', () => {
  test.each([
    ['by a process that ended', { pid: 2 ** 22 + 1 }],
    ['before a restart', { boot: 'another' }],
    ['by a process whose number another has now', { started: '1' }],
  ])('%s is taken over', (_, change) => {
    const path = lockPath();
    leave(path, { id: uuid(1), ...change });
    const lock = taken(path);
    expect(lock.tookOverFrom).toBeUndefined();
    lock.release();
    expect(readdirSync(join(path, '..'))).toEqual([]);
  });

  test('is taken over even when an heir ended over it, and the heir of the heir', () => {
    const path = lockPath();
    const dead = { pid: 2 ** 22 + 1 };
    leave(path, { id: uuid(1), ...dead });
    leave(join(path, '..', `.heir-of-${uuid(1)}`), { id: uuid(2), ...dead });
    leave(join(path, '..', `.heir-of-${uuid(2)}`), { id: uuid(3), ...dead });
    taken(path).release();
    expect(readdirSync(join(path, '..'))).toEqual([]);
  });

  test('on another computer is refused, and taken over only on a person’s word', () => {
    const path = lockPath();
    leave(path, { host: `${hostname()}-other`, pid: 2 ** 22 + 1 });
    const refused = acquireLock(realDisk, path, wish);
    expect(refused).toMatchObject({ ok: false, why: expect.stringContaining('--take-over') });
    expect(refused).toMatchObject({ why: expect.stringContaining(`${hostname()}-other`) });
    expect(taken(path, { takeOver: true }).tookOverFrom).toBe(`the computer ${hostname()}-other`);
  });

  test.each(['', '{', '{"pid":1}', JSON.stringify({ ...us, program: '\u001b[2J' })])(
    'as %j is refused, and taken over only on a person’s word',
    text => {
      const path = lockPath();
      writeFileSync(path, text);
      expect(acquireLock(realDisk, path, wish)).toMatchObject({
        ok: false,
        why: expect.stringContaining('cannot be read'),
      });
      expect(acquireLock(realDisk, path, { ...wish, waitMs: 0 })).toMatchObject({
        why: expect.stringContaining(`delete ${path}`),
      });
      expect(taken(path, { takeOver: true }).tookOverFrom).toBe('an unknown computer');
    },
  );

  test('by a living process of this computer is not even taken over on a person’s word', () => {
    const path = lockPath();
    taken(path);
    expect(acquireLock(realDisk, path, { ...wish, takeOver: true }).ok).toBe(false);
  });
});

describe('two processes', () => {
  test('never hold it both; when the first is killed the second gets it at once', async () => {
    const path = lockPath();
    const other = startChild(child, path);
    expect(await other.nextLine()).toBe('held');
    expect(acquireLock(realDisk, path, wish)).toMatchObject({
      ok: false,
      why: expect.stringContaining(`child, process ${other.process.pid}`),
    });
    other.process.kill('SIGKILL');
    await other.ended;
    taken(path).release();
  });

  test('go through it in turns, each as often as it wants', async () => {
    const path = lockPath();
    const times = cases(25);
    const others = [1, 2, 3].map(() => startChild(child, path, String(times)));
    for (const other of others) expect(await other.nextLine()).toBe(String(times));
    expect(readdirSync(join(path, '..'))).toEqual([]);
  });

  test('find it again after one of them is killed anywhere', async () => {
    for (let n = 0; n < cases(3); n += 1) {
      const path = lockPath();
      const victim = startChild(child, path, '100000');
      const other = startChild(child, path, '10');
      await new Promise(resolve => {
        setTimeout(resolve, 80 + 10 * n);
      });
      victim.process.kill('SIGKILL');
      await victim.ended;
      expect(await other.nextLine()).toBe('10');
      taken(path, { waitMs: 1000 }).release();
    }
  });
});
