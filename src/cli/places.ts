/** Where things are: the workshop, the private keys, the demo sheets. */
import { homedir } from 'node:os';
import { join, resolve } from 'node:path';

const dataHome = (): string => {
  const stated = process.env['XDG_DATA_HOME'];
  return stated === undefined || stated === '' ? join(homedir(), '.local', 'share') : stated;
};

/** The workshop named on the command line, else by TAREBOOK_WORKSHOP, else by the settings, else one of one's own. */
export const workshopFolder = (
  named: string | undefined,
  preferred: () => string | undefined,
): string =>
  resolve(
    named ??
      process.env['TAREBOOK_WORKSHOP'] ??
      preferred() ??
      join(dataHome(), 'tarebook', 'workshop'),
  );

/** Private keys live with their owners, never in the workshop. */
export const keysFolder = (): string =>
  resolve(process.env['TAREBOOK_KEYS'] ?? join(dataHome(), 'tarebook', 'keys'));

/** The sheets that come with the program. */
export const demoFolder = (): string => join(import.meta.dirname, '..', 'sheets');
