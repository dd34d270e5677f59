import type { KeyObject } from 'node:crypto';
import type { Done } from '../core/dialogue/bench.ts';
import { keysHere, openKey, type PublicKey } from './keys.ts';
import { keysOf, readRegister } from './register.ts';
import type { Workshop } from './workshop.ts';

/** A person's latest key whose private half is in the folder; undefined where there is none. */
export const keyHere = (
  workshop: Workshop,
  keysDir: string,
  name: string,
): Done<PublicKey | undefined> => {
  const register = readRegister(workshop);
  if (!register.ok) return register;
  const here = keysHere(workshop.disk, keysDir, keysOf(register.value, name));
  return here.ok ? { ok: true, value: here.value[0] } : here;
};

export interface SignerKey {
  readonly kid: string;
  readonly key: KeyObject;
}

/** Opens a person's latest key with its passphrase. */
export const unlock = (
  workshop: Workshop,
  keysDir: string,
  { name, passphrase }: { readonly name: string; readonly passphrase: string },
): Done<SignerKey> => {
  const found = keyHere(workshop, keysDir, name);
  if (!found.ok) return found;
  if (found.value === undefined) {
    return { ok: false, why: `${name} has no key on this computer. Make one first.` };
  }
  const { kid } = found.value;
  const opened = openKey(workshop.disk, keysDir, found.value, passphrase);
  return opened.ok ? { ok: true, value: { kid, key: opened.value } } : opened;
};
