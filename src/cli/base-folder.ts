import { homedir } from 'node:os';
import { join } from 'node:path';

/** A base folder of the XDG specification: as its variable says, else the usual one under home. */
export const baseFolder = (
  variable: 'XDG_DATA_HOME' | 'XDG_CONFIG_HOME',
  ...usual: readonly string[]
): string => {
  const stated = process.env[variable];
  return stated === undefined || stated === '' ? join(homedir(), ...usual) : stated;
};
