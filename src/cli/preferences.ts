/** Preferences: what is convenient to remember and is no record. */
import Conf from 'conf';

interface Preferences {
  workshop?: string;
  person?: string;
}

const open = (): Conf<Preferences> | undefined => {
  try {
    return new Conf<Preferences>({
      projectName: 'tarebook',
      projectSuffix: '',
      configFileMode: 0o600,
      schema: { workshop: { type: 'string' }, person: { type: 'string' } },
    });
  } catch {
    // A damaged file of preferences must never keep anyone from working.
    return undefined;
  }
};

/** A preference; undefined when it was never set, or the file cannot be read. */
export const preference = (name: keyof Preferences): string | undefined => open()?.get(name);

/** Remembers a preference if that is possible. */
export const remember = (name: keyof Preferences, value: string): void => {
  try {
    open()?.set(name, value);
  } catch {
    // The same: it is asked again next time.
  }
};
