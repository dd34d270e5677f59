import { writeFileSync } from 'node:fs';
import { basename } from 'node:path';
import { exitStatus } from './exit-status.ts';
import { Stop } from './stop.ts';

/** Writes what a person asked for to a path and says so; `-` is the standard output. Stops with status 3. */
export const handOut = (to: string, what: string | Uint8Array): void => {
  if (to === '-') {
    process.stdout.write(what);
    return;
  }
  try {
    writeFileSync(to, what);
  } catch (error) {
    throw new Stop(exitStatus.missing, `${basename(to)} cannot be written: ${String(error)}`);
  }
  process.stdout.write(`${to} is written.\n`);
};
