import { randomBytes } from 'node:crypto';
import { dirname } from 'node:path';
import { type Disk, syncFolder, withFile, writeWhole } from './disk.ts';

const writeNew = (disk: Disk, path: string, bytes: Uint8Array, mode?: number): void => {
  withFile(disk, path, { flags: 'wx', mode }, fd => {
    writeWhole(disk, fd, bytes);
    disk.sync(fd);
  });
};

const removeQuietly = (disk: Disk, path: string): void => {
  try {
    disk.remove(path);
  } catch {
    // What failed before is what the caller has to hear.
  }
};

/** Writes a complete file under a name of its own in the same folder, hands it over, and removes that name. */
export const withTemporary = <T>(
  disk: Disk,
  path: string,
  { bytes, mode }: { readonly bytes: Uint8Array; readonly mode?: number | undefined },
  act: (temporary: string) => T,
): T => {
  const temporary = `${path}.new-${randomBytes(6).toString('hex')}`;
  try {
    writeNew(disk, temporary, bytes, mode);
    return act(temporary);
  } finally {
    removeQuietly(disk, temporary);
  }
};

/** Writes a whole file so that after a power cut either the old one or the new one stands, complete. */
export const writeDurably = (disk: Disk, path: string, bytes: Uint8Array, mode?: number): void => {
  withTemporary(disk, path, { bytes, mode }, temporary => {
    disk.rename(temporary, path);
    syncFolder(disk, dirname(path));
  });
};
