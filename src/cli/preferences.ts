/**
 * Preferences: what is convenient to remember and is no record. They are read plainly, since each start
 * pays for it, and written by conf, which is loaded only then.
 */
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { baseFolder } from './base-folder.ts';

type Name = 'workshop' | 'person';

const folder = (): string => join(baseFolder('XDG_CONFIG_HOME', '.config'), 'tarebook');

/** A preference; undefined when it was never set, or the file cannot be read. */
export const preference = (name: Name): string | undefined => {
  try {
    const kept: unknown = JSON.parse(readFileSync(join(folder(), 'config.json'), 'utf8'));
    const value: unknown =
      typeof kept === 'object' && kept !== null ? Reflect.get(kept, name) : undefined;
    return typeof value === 'string' ? value : undefined;
  } catch {
    // None yet, or damaged: preferences must never keep anyone from working.
    return undefined;
  }
};

/** Remembers a preference if that is possible. */
export const remember = async (name: Name, value: string): Promise<void> => {
  if (preference(name) === value) return;
  try {
    const { default: Conf } = await import('conf');
    new Conf<Record<Name, string>>({
      cwd: folder(),
      configFileMode: 0o600,
      clearInvalidConfig: true,
    }).set(name, value);
  } catch {
    // The same: it is asked again next time.
  }
};
