import { basename, dirname } from 'node:path';
import type { Done } from '../core/dialogue/bench.ts';
import { type ChainedLine, formatLine, longestLine, type Scan, scanLines } from './chained-line.ts';
import { type Disk, listIfThere, readIfThere, syncFolder, withFile, writeWhole } from './disk.ts';
import { attempt, diskError } from './disk-error.ts';
import { writeDurably } from './write-durably.ts';

/** A file of chained lines, open for appending by the holder of its lock. */
export interface ChainedFile {
  readonly lines: () => readonly ChainedLine[];
  /** Hash of the last line. */
  readonly head: () => string;
  /** Appends whole lines durably, or nothing; after a failure the same can be tried again. */
  readonly append: (values: readonly Readonly<Record<string, unknown>>[]) => Done;
}

export interface OpenedFile {
  readonly file: ChainedFile;
  /** What was mended on opening, in one sentence. */
  readonly notice?: string;
}

/** Reads a chained file as it stands, mending nothing; no file is no lines. */
export const readChained = (disk: Disk, path: string): Scan =>
  scanLines(readIfThere(disk, path) ?? new Uint8Array());

export const explainDamage = (path: string, line: number, why: string): string =>
  `${basename(path)} is damaged in line ${line}: ${why}. Nothing was changed. Bring the file back from a backup, or keep it and ask for help.`;

/** The same for whoever needs all of it: damage is refused with its line. `name` is for people. */
export const readUndamaged = (disk: Disk, path: string, name: string): Done<Scan> => {
  const scan = attempt(`${name} could not be read`, () => readChained(disk, path));
  return scan.ok && scan.value.fault?.kind === 'damaged'
    ? { ok: false, why: explainDamage(path, scan.value.fault.line, scan.value.fault.why) }
    : scan;
};

const cutTo = (disk: Disk, path: string, length: number): void => {
  withFile(disk, path, { flags: 'r+' }, fd => {
    disk.truncate(fd, length);
    disk.sync(fd);
  });
};

// The file is copied before anything is cut: what a power cut left may still tell a person something.
const mendTail = (disk: Disk, path: string, bytes: Uint8Array, end: number): string => {
  const names = new Set(listIfThere(disk, dirname(path)));
  const stem = basename(path, '.jsonl');
  let n = 1;
  while (names.has(`${stem}.torn-${n}.jsonl`)) n += 1;
  const aside = `${stem}.torn-${n}.jsonl`;
  writeDurably(disk, `${dirname(path)}/${aside}`, bytes);
  cutTo(disk, path, end);
  return `The last line of ${basename(path)} was cut off in the middle, as by a power cut. It was removed; the file as it was is kept as ${aside}. What was entered last may have to be entered again.`;
};

interface Added {
  readonly line: ChainedLine;
  readonly bytes: Uint8Array;
}

const chainAfter = (
  values: readonly Readonly<Record<string, unknown>>[],
  head: string,
  count: number,
): readonly Added[] => {
  let previous = head;
  return values.map((body, index) => {
    const { text, hash } = formatLine(body, previous);
    previous = hash;
    return { line: { n: count + index + 1, body, hash }, bytes: Buffer.from(text) };
  });
};

const chainedFile = (disk: Disk, path: string, scan: Scan, isThere: boolean): ChainedFile => {
  const lines = [...scan.lines];
  let { head, end } = scan;
  let exists = isThere;
  let isCutDue = false;

  const write = (bytes: Uint8Array): void => {
    withFile(disk, path, { flags: exists ? 'r+' : 'wx' }, fd => {
      exists = true;
      if (isCutDue) disk.truncate(fd, end);
      if (disk.size(fd) !== end) throw diskError('EBUSY', 'something else has written to it');
      isCutDue = true;
      writeWhole(disk, fd, bytes, end);
      disk.sync(fd);
    });
    if (end === 0) syncFolder(disk, dirname(path));
    isCutDue = false;
  };

  const cutBack = (): string => {
    if (!isCutDue) return '';
    const cut = attempt('', () => cutTo(disk, path, end));
    isCutDue = !cut.ok;
    return cut.ok ? '' : ' What was written of it could not be removed; the next try removes it.';
  };

  const append = (values: readonly Readonly<Record<string, unknown>>[]): Done => {
    const added = chainAfter(values, head, lines.length);
    const bytes = Buffer.concat(added.map(each => each.bytes));
    if (added.some(each => each.bytes.length > longestLine)) {
      return { ok: false, why: 'This is too long to be kept in one line.' };
    }
    const wrote = attempt(`${basename(path)} could not be written`, () => write(bytes));
    if (!wrote.ok) return { ok: false, why: wrote.why + cutBack() };
    lines.push(...added.map(each => each.line));
    head = lines.at(-1)?.hash ?? head;
    end += bytes.length;
    return { ok: true, value: true };
  };

  return { lines: () => lines, head: () => head, append };
};

/** Opens a chained file for its lock's holder: a torn tail is put aside and cut, damage is refused with its line. */
export const openChained = (disk: Disk, path: string): Done<OpenedFile> => {
  const read = attempt(`${basename(path)} could not be opened`, () => readIfThere(disk, path));
  if (!read.ok) return read;
  const bytes = read.value ?? new Uint8Array();
  const scan = scanLines(bytes);
  const file = chainedFile(disk, path, scan, read.value !== undefined);
  if (scan.fault === undefined) return { ok: true, value: { file } };
  if (scan.fault.kind === 'damaged') {
    return { ok: false, why: explainDamage(path, scan.fault.line, scan.fault.why) };
  }
  const mended = attempt(`${basename(path)} ends in half a line that could not be removed`, () =>
    mendTail(disk, path, bytes, scan.end),
  );
  return mended.ok ? { ok: true, value: { file, notice: mended.value } } : mended;
};
