/** Where things are: the workshop, the private keys, the demo sheets. */
import { join, resolve } from 'node:path';
import { baseFolder } from './base-folder.ts';
import { preference } from './preferences.ts';

const dataHome = (): string => baseFolder('XDG_DATA_HOME', '.local', 'share');

/** The workshop named on the command line, else by TAREBOOK_WORKSHOP, else by the preferences, else one of one's own. */
export const workshopFolder = (named: string | undefined): string =>
  resolve(
    named ??
      process.env['TAREBOOK_WORKSHOP'] ??
      preference('workshop') ??
      join(dataHome(), 'tarebook', 'workshop'),
  );

/** Private keys live with their owners, never in the workshop. */
export const keysFolder = (): string =>
  resolve(process.env['TAREBOOK_KEYS'] ?? join(dataHome(), 'tarebook', 'keys'));

/** The sheets that come with the program. */
export const demoFolder = (): string => join(import.meta.dirname, '..', 'sheets');
