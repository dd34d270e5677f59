import type { Done } from '../core/dialogue/bench.ts';
import { makeKey } from './keys.ts';
import { enterKey } from './register.ts';
import type { Workshop } from './workshop.ts';

/** Makes a key for a person and puts its public half on the register; answers its fingerprint. */
export const enrol = (
  workshop: Workshop,
  keysDir: string,
  name: string,
  passphrase: string,
): Done<string> => {
  const key = makeKey(workshop.disk, keysDir, passphrase);
  if (!key.ok) return key;
  const entered = enterKey(workshop, name, key.value);
  return entered.ok ? { ok: true, value: key.value.kid } : entered;
};
