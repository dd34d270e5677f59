import type { KeyObject } from 'node:crypto';
import type { Done, Meaning } from '../core/dialogue/bench.ts';
import { peopleOf } from '../core/result/build-result.ts';
import type { ClosedRun } from '../core/run/state.ts';
import { enter } from './book.ts';
import { attempt } from './disk-error.ts';
import { finishClosing } from './finish-closing.ts';
import { keysHere, openKey, type PublicKey } from './keys.ts';
import { ledgerBook, signedLines } from './ledger.ts';
import { keysOf, readRegister } from './register.ts';
import { formatSignatures, signRecord } from './sign.ts';
import { signaturesOf, signedEntry } from './signature-file.ts';
import { filesOf, type Workshop } from './workshop.ts';
import { writeDurably } from './write-durably.ts';

export interface SignatureWish {
  readonly batch: string;
  readonly name: string;
  readonly passphrase: string;
  readonly meaning: Meaning;
}

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

/** Opens the key of a person with their passphrase. */
export const unlock = (
  workshop: Workshop,
  keysDir: string,
  { name, passphrase }: Pick<SignatureWish, 'name' | 'passphrase'>,
): Done<{ readonly kid: string; readonly key: KeyObject }> => {
  const found = keyHere(workshop, keysDir, name);
  if (!found.ok) return found;
  if (found.value === undefined) {
    return { ok: false, why: `${name} has no key on this computer. Make one first.` };
  }
  const { kid } = found.value;
  const opened = openKey(workshop.disk, keysDir, found.value, passphrase);
  return opened.ok ? { ok: true, value: { kid, key: opened.value } } : opened;
};

/** Why a person cannot sign with that meaning: who made it cannot have witnessed it, nor the other way round. */
const whyNot = (run: ClosedRun, { name, meaning }: SignatureWish): string | undefined => {
  const people = peopleOf(run);
  if (meaning === 'made by' && !people.includes(name))
    return `${name} did not make ${run.batch}; ${people.join(', ')} did. Sign as witnessed by, reviewed by or released by.`;
  return meaning === 'witnessed by' && people.includes(name)
    ? `${name} made ${run.batch}: its witness is another person.`
    : undefined;
};

const addSignature = (
  workshop: Workshop,
  record: Buffer,
  { batch, name, meaning }: SignatureWish,
  { kid, key }: { readonly kid: string; readonly key: KeyObject },
): Done =>
  enter(workshop, ledgerBook(workshop), name, ({ lines, head }) => {
    const before = signedLines(lines, batch);
    if (before.some(line => line.signer === name && line.meaning === meaning)) {
      return { ok: false, why: `${name} has signed ${batch} as “${meaning}” already.` };
    }
    const others = signaturesOf(workshop, batch);
    if (!others.ok) return others;
    const ledger = { seq: lines.length, prev: head };
    const statement = { kid, signer: name, meaning, at: workshop.now(), ledger };
    const entry = signRecord(record, statement, key);
    const bytes = Buffer.from(formatSignatures([...others.value, entry]));
    const written = attempt('The signature could not be written', () =>
      writeDurably(workshop.disk, filesOf(workshop, batch).signatures, bytes),
    );
    return written.ok
      ? { ok: true, value: signedEntry(batch, entry, { signer: name, kid, meaning }) }
      : written;
  });

/**
 * Finishes the closing of a batch and signs its record; answers where the record is. The same person
 * cannot sign the same meaning twice, but a signing that was interrupted is simply done again.
 */
export const signBatch = (
  workshop: Workshop,
  keysDir: string,
  wish: SignatureWish,
): Done<string> => {
  const { batch, name, meaning } = wish;
  const closed = finishClosing(workshop, batch);
  if (!closed.ok) return closed;
  const done = { ok: true, value: filesOf(workshop, batch).record } as const;
  const { run, record, recovered } = closed.value;
  if (recovered.some(each => each.signer === name && each.meaning === meaning)) return done;
  const why = whyNot(run, wish);
  if (why !== undefined) return { ok: false, why };
  const unlocked = unlock(workshop, keysDir, wish);
  if (!unlocked.ok) return unlocked;
  const signed = addSignature(workshop, record, wish, unlocked.value);
  return signed.ok ? done : signed;
};
