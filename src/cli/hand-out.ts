import { existsSync, realpathSync, renameSync, writeFileSync } from 'node:fs';
import { basename, dirname, join, relative, resolve } from 'node:path';
import { exitStatus } from './exit-status.ts';
import { Stop, usage } from './stop.ts';

const isInside = (path: string, folder: string): boolean => {
  const way = relative(folder, path);
  return way !== '' && !way.startsWith('..');
};

/** Where the file would really lie, links resolved. */
const realPlace = (to: string): string => {
  const path = resolve(to);
  if (existsSync(path)) return realpathSync(path);
  const folder = dirname(path);
  return join(existsSync(folder) ? realpathSync(folder) : folder, basename(path));
};

const keepOut = (to: string, folders: readonly string[]): void => {
  const place = realPlace(to);
  const inside = folders
    .filter(folder => existsSync(folder))
    .find(folder => isInside(place, realpathSync(folder)));
  if (inside === undefined) return;
  return usage(`${to} lies in ${inside}, where the records are kept. Name a file elsewhere.`);
};

/**
 * Writes what a person asked for to a path and says so; `-` is the standard output. Stops with status
 * 2 for a path among the records or keys, with 3 where it cannot be written.
 */
export const handOut = (
  to: string,
  what: string | Uint8Array,
  keptOut: readonly string[],
): void => {
  if (to === '-') {
    process.stdout.write(what);
    return;
  }
  keepOut(to, keptOut);
  try {
    const next = `${to}.new`;
    writeFileSync(next, what);
    renameSync(next, to);
  } catch (error) {
    throw new Stop(exitStatus.missing, `${basename(to)} cannot be written: ${String(error)}`);
  }
  process.stdout.write(`${to} is written.\n`);
};
