import {
  mkdirSync,
  readdirSync,
  readFileSync,
  statSync,
  truncateSync,
  writeFileSync,
} from 'node:fs';
import { join } from 'node:path';
import { describe, expect, test } from 'vitest';
import { openChained, readChained } from '../../src/workshop/chained-file.ts';
import { type Disk, realDisk } from '../../src/workshop/disk.ts';
import { failingDisk, once, systemError } from '../helpers/failing-disk.ts';
import { tempDir } from '../helpers/temp-dir.ts';

// Invented data throughout.
const one = { seq: 1, text: 'one' };
const two = { seq: 2, text: 'two' };
const three = { seq: 3, text: 'three' };

const opened = (path: string, disk: Disk = realDisk) => {
  const done = openChained(disk, path);
  if (!done.ok) throw new Error(done.why);
  return done.value;
};

const bodies = (path: string) => readChained(realDisk, path).lines.map(line => line.body);

const withTwo = (): string => {
  const path = join(tempDir(), 'journal.jsonl');
  expect(opened(path).file.append([one, two])).toEqual({ ok: true, value: true });
  return path;
};

const shortWrites = (limit: number): Disk =>
  failingDisk({
    write: (fd, bytes, position) => realDisk.write(fd, bytes.subarray(0, limit), position),
  });

const full = (after: number): Disk => {
  let left = after;
  return failingDisk({
    write: (fd, bytes, position) => {
      if (left === 0) throw systemError('ENOSPC');
      const wrote = realDisk.write(fd, bytes.subarray(0, left), position);
      left -= wrote;
      return wrote;
    },
  });
};

test('opening makes no file; the first entry does', () => {
  const folder = tempDir();
  const { file } = opened(join(folder, 'journal.jsonl'));
  expect(readdirSync(folder)).toEqual([]);
  expect(file.append([one]).ok).toBe(true);
  expect(file.append([two, three]).ok).toBe(true);
  expect(bodies(join(folder, 'journal.jsonl'))).toEqual([one, two, three]);
  expect(file.head()).toBe(readChained(realDisk, join(folder, 'journal.jsonl')).head);
});

test('a file is gone on with where it ended', () => {
  const path = withTwo();
  expect(opened(path).file.append([three]).ok).toBe(true);
  expect(bodies(path)).toEqual([one, two, three]);
});

test('a tail torn at any byte is put aside whole, cut, said, and gone on with', () => {
  const path = withTwo();
  const whole = readFileSync(path);
  const firstEnd = whole.indexOf(10) + 1;
  for (let length = 1; length < whole.length; length += 1) {
    if (length === firstEnd) continue;
    const torn = join(tempDir(), 'journal.jsonl');
    writeFileSync(torn, whole.subarray(0, length));
    const { file, notice } = opened(torn);
    expect(notice).toContain('kept as journal.torn-1.jsonl');
    expect(readFileSync(torn.replace('.jsonl', '.torn-1.jsonl'))).toEqual(
      whole.subarray(0, length),
    );
    expect(file.lines()).toHaveLength(length > firstEnd ? 1 : 0);
    expect(file.append([three]).ok).toBe(true);
    expect(bodies(torn)).toEqual(length > firstEnd ? [one, three] : [three]);
  }
});

test('a second torn tail gets a name of its own', () => {
  const path = withTwo();
  for (const n of [1, 2]) {
    truncateSync(path, statSync(path).size - 1);
    expect(opened(path).notice).toContain(`journal.torn-${n}.jsonl`);
    expect(opened(path).file.append([three]).ok).toBe(true);
  }
});

test('damage is refused with its line, and nothing is touched', () => {
  const path = withTwo();
  const damaged = readFileSync(path, 'utf8').replace('two', 'tow');
  writeFileSync(path, damaged);
  const refused = openChained(realDisk, path);
  expect(refused).toMatchObject({
    ok: false,
    why: expect.stringMatching(/^journal\.jsonl is damaged in line 2: its hash does not fit/),
  });
  expect(readFileSync(path, 'utf8')).toBe(damaged);
});

test('a folder or a pipe in the place of the file is refused', () => {
  const path = join(tempDir(), 'journal.jsonl');
  mkdirSync(path);
  expect(openChained(realDisk, path)).toMatchObject({ ok: false });
});

test('what something else wrote in the meantime is not written over', () => {
  const path = withTwo();
  const { file } = opened(path);
  expect(opened(path).file.append([three]).ok).toBe(true);
  expect(file.append([{ seq: 3, text: 'other' }])).toEqual({
    ok: false,
    why: 'journal.jsonl could not be written: something else has written to it.',
  });
  expect(bodies(path)).toEqual([one, two, three]);
});

describe('when the disk fails', () => {
  test('short writes are gone on with until all is there', () => {
    const path = withTwo();
    expect(opened(path, shortWrites(7)).file.append([three]).ok).toBe(true);
    expect(bodies(path)).toEqual([one, two, three]);
  });

  test('a disk that is full after any number of bytes leaves no half line, and the same entry can be tried again', () => {
    const length = withTwo().length + 200;
    for (let after = 0; after < length; after += 1) {
      const path = withTwo();
      const before = readFileSync(path);
      const { file } = opened(path, full(after));
      const { size } = statSync(path);
      const done = file.append([three]);
      if (done.ok) return;
      expect(done.why).toBe('journal.jsonl could not be written: the disk is full.');
      expect(statSync(path).size).toBe(size);
      expect(readFileSync(path)).toEqual(before);
      expect(file.lines()).toHaveLength(2);
    }
    throw new Error('the line never fitted');
  });

  test('a failed fsync takes the entry back; trying again writes it once', () => {
    const path = withTwo();
    const fail = once('EIO');
    const { file } = opened(
      path,
      failingDisk({
        sync: fd => {
          fail();
          realDisk.sync(fd);
        },
      }),
    );
    expect(file.append([three])).toMatchObject({ ok: false });
    expect(bodies(path)).toEqual([one, two]);
    expect(file.append([three]).ok).toBe(true);
    expect(bodies(path)).toEqual([one, two, three]);
  });

  test('what could not be cut at once is said, and cut at the next try', () => {
    const path = withTwo();
    const [failSync, failCut] = [once('ENOSPC'), once('EIO')];
    const { file } = opened(
      path,
      failingDisk({
        sync: fd => {
          failSync();
          realDisk.sync(fd);
        },
        truncate: (fd, length) => {
          failCut();
          realDisk.truncate(fd, length);
        },
      }),
    );
    expect(file.append([three])).toMatchObject({
      ok: false,
      why: expect.stringContaining('the next try removes it'),
    });
    const other = { seq: 3, text: 'other' };
    expect(file.append([other]).ok).toBe(true);
    expect(bodies(path)).toEqual([one, two, other]);
  });

  test('the first entry counts only when the folder is on the disk too', () => {
    const path = join(tempDir(), 'journal.jsonl');
    let calls = 0;
    const { file } = opened(
      path,
      failingDisk({
        sync: fd => {
          calls += 1;
          if (calls === 2) throw systemError('EIO');
          realDisk.sync(fd);
        },
      }),
    );
    expect(file.append([one]).ok).toBe(false);
    expect(bodies(path)).toEqual([]);
    expect(file.append([one]).ok).toBe(true);
    expect(bodies(path)).toEqual([one]);
  });

  test('a torn tail that cannot be put aside is not cut', () => {
    const path = withTwo();
    truncateSync(path, statSync(path).size - 1);
    const before = readFileSync(path);
    const disk = failingDisk({
      rename: () => {
        throw systemError('EROFS');
      },
    });
    expect(openChained(disk, path)).toMatchObject({
      ok: false,
      why: expect.stringContaining('the disk can only be read'),
    });
    expect(readFileSync(path)).toEqual(before);
    expect(readdirSync(join(path, '..'))).toEqual(['journal.jsonl']);
  });

  test('a fault of the program is no fault of the disk', () => {
    const { file } = opened(
      withTwo(),
      failingDisk({
        write: () => {
          throw new TypeError('invented');
        },
      }),
    );
    expect(() => file.append([three])).toThrow(TypeError);
  });
});
