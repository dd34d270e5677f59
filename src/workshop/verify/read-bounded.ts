import { isUtf8 } from 'node:buffer';
import { closeSync, constants, fstatSync, openSync, readSync } from 'node:fs';
import { largestFile } from './formats.ts';

export type FileRead =
  | { readonly kind: 'read'; readonly bytes: Buffer }
  | { readonly kind: 'missing' }
  | { readonly kind: 'unreadable'; readonly why: string };

const readAll = (fd: number, size: number): Buffer => {
  const bytes = Buffer.alloc(size);
  let length = 0;
  while (length < size) {
    const got = readSync(fd, bytes, length, size - length, null);
    if (got === 0) break;
    length += got;
  }
  return bytes.subarray(0, length);
};

const readOpen = (fd: number): FileRead => {
  const stat = fstatSync(fd);
  if (!stat.isFile()) return { kind: 'unreadable', why: 'it is no ordinary file' };
  if (stat.size > largestFile) return { kind: 'unreadable', why: 'it is too large to be ours' };
  return { kind: 'read', bytes: readAll(fd, stat.size) };
};

const codeOf = (error: unknown): string =>
  error instanceof Error && 'code' in error ? String(error.code) : 'unknown';

/** Reads an ordinary file of at most 32 MiB; never follows a link to one and never waits on a pipe. */
export const readBounded = (path: string): FileRead => {
  let fd: number | undefined;
  try {
    fd = openSync(path, constants.O_RDONLY | constants.O_NOFOLLOW | constants.O_NONBLOCK);
    return readOpen(fd);
  } catch (error) {
    const code = codeOf(error);
    if (code === 'ENOENT' || code === 'ENOTDIR') return { kind: 'missing' };
    return { kind: 'unreadable', why: `the system says ${code}` };
  } finally {
    if (fd !== undefined) closeSync(fd);
  }
};

/** The text of UTF-8 bytes; undefined where they are none. A byte order mark stays in it. */
export const textOf = (bytes: Buffer): string | undefined =>
  isUtf8(bytes) ? bytes.toString('utf8') : undefined;
