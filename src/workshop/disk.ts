import {
  closeSync,
  constants,
  fstatSync,
  fsyncSync,
  ftruncateSync,
  linkSync,
  mkdirSync,
  openSync,
  readdirSync,
  readFileSync,
  renameSync,
  unlinkSync,
  writeSync,
} from 'node:fs';
import { dirname } from 'node:path';
import { diskError, errorCode } from './disk-error.ts';

/** Every call by which the workshop touches a disk, so that a test can hand in one that fails. */
export interface Disk {
  readonly open: (path: string, flags: string, mode?: number) => number;
  readonly close: (fd: number) => void;
  readonly size: (fd: number) => number;
  /** Writes what it can at a place in the file and answers how much that was: less is no error. */
  readonly write: (fd: number, bytes: Uint8Array, position: number) => number;
  readonly truncate: (fd: number, length: number) => void;
  readonly sync: (fd: number) => void;
  /** Reads an ordinary file whole; refuses anything else and what is far too large to be ours. */
  readonly read: (path: string) => Buffer;
  readonly list: (folder: string) => readonly string[];
  readonly makeFolder: (path: string, mode?: number) => void;
  readonly rename: (from: string, to: string) => void;
  readonly link: (from: string, to: string) => void;
  readonly remove: (path: string) => void;
}

const largestFile = 268_435_456;

const readOrdinary = (path: string): Buffer => {
  // Without O_NONBLOCK a pipe in the place of a file would be waited on for ever.
  const fd = openSync(path, constants.O_RDONLY | constants.O_NONBLOCK);
  try {
    const stat = fstatSync(fd);
    if (!stat.isFile()) throw diskError('EINVAL', 'it is no ordinary file');
    if (stat.size > largestFile) throw diskError('EFBIG', 'it is too large to be ours');
    return readFileSync(fd);
  } finally {
    closeSync(fd);
  }
};

export const realDisk: Disk = {
  open: openSync,
  close: closeSync,
  size: fd => fstatSync(fd).size,
  write: (fd, bytes, position) => writeSync(fd, bytes, 0, bytes.length, position),
  truncate: ftruncateSync,
  sync: fsyncSync,
  read: readOrdinary,
  list: folder => readdirSync(folder),
  makeFolder: (path, mode) => {
    mkdirSync(path, { mode });
  },
  rename: renameSync,
  link: linkSync,
  remove: unlinkSync,
};

/** Opens, does, and closes whatever happens. */
export const withFile = <T>(
  disk: Disk,
  path: string,
  { flags, mode }: { readonly flags: string; readonly mode?: number | undefined },
  act: (fd: number) => T,
): T => {
  const fd = disk.open(path, flags, mode);
  try {
    return act(fd);
  } finally {
    disk.close(fd);
  }
};

/** Writes all bytes from a place on. A short write is no error to the system: it is tried until one is. */
export const writeWhole = (disk: Disk, fd: number, bytes: Uint8Array, from = 0): void => {
  for (let done = 0; done < bytes.length; ) {
    const wrote = disk.write(fd, bytes.subarray(done), from + done);
    if (wrote === 0) throw diskError('ENOSPC', 'the disk takes no more');
    done += wrote;
  }
};

/** Makes the names in a folder last through a power cut. */
export const syncFolder = (disk: Disk, folder: string): void => {
  withFile(disk, folder, { flags: 'r' }, disk.sync);
};

const makeUnlessThere = (disk: Disk, folder: string, mode?: number): void => {
  try {
    disk.makeFolder(folder, mode);
  } catch (error) {
    if (errorCode(error) === 'EEXIST') return;
    throw error;
  }
  syncFolder(disk, dirname(folder));
};

/** Makes a folder and those above it, each one durably; one that is there is left as it is. */
export const ensureFolder = (disk: Disk, folder: string, mode?: number): void => {
  try {
    makeUnlessThere(disk, folder, mode);
  } catch (error) {
    if (errorCode(error) !== 'ENOENT' || dirname(folder) === folder) throw error;
    ensureFolder(disk, dirname(folder), mode);
    makeUnlessThere(disk, folder, mode);
  }
};

/** The bytes of a file; undefined where there is none. */
export const readIfThere = (disk: Disk, path: string): Buffer | undefined => {
  try {
    return disk.read(path);
  } catch (error) {
    if (errorCode(error) === 'ENOENT') return undefined;
    throw error;
  }
};

/** The names in a folder; none where there is no folder. */
export const listIfThere = (disk: Disk, folder: string): readonly string[] => {
  try {
    return disk.list(folder);
  } catch (error) {
    if (errorCode(error) === 'ENOENT') return [];
    throw error;
  }
};
