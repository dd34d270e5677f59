import { closeSync, constants, fstatSync, openSync, readFileSync } from 'node:fs';
import { exitStatus } from './exit-status.ts';
import { Stop } from './stop.ts';

/** Nothing larger is ever read as a sheet. */
const largestSheet = 1_000_000;

const reasons: Readonly<Record<string, string>> = {
  ENOENT: 'there is no such file',
  EACCES: 'it may not be read',
};

const whyNot = (error: unknown): string => {
  const code = error instanceof Error && 'code' in error ? String(error.code) : '';
  return reasons[code] ?? (code === '' ? String(error) : code);
};

/** The bytes of a sheet as text; bytes that are not UTF-8 become U+FFFD, which the sheet reader refuses with its place. Stops with status 3. */
export const readSheetFile = (path: string): string => {
  try {
    // A pipe or a device must not keep the program waiting.
    const file = openSync(path, constants.O_RDONLY | constants.O_NONBLOCK);
    try {
      const found = fstatSync(file);
      const { size } = found;
      if (found.isDirectory())
        throw new Stop(exitStatus.missing, `${path}: it is a folder. Name a sheet in it.`);
      if (!found.isFile()) throw new Stop(exitStatus.missing, `${path}: it is no file.`);
      if (size > largestSheet)
        throw new Stop(exitStatus.missing, `${path}: too large to be a sheet (${size} bytes).`);
      return readFileSync(file, 'utf8');
    } finally {
      closeSync(file);
    }
  } catch (error) {
    if (error instanceof Stop) throw error;
    throw new Stop(exitStatus.missing, `${path}: ${whyNot(error)}.`);
  }
};
