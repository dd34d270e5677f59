import type { Done, Meaning } from '../core/dialogue/bench.ts';
import { enter } from './book.ts';
import { attempt } from './disk-error.ts';
import { type ClosedBatch, finishClosing } from './finish-closing.ts';
import { ledgerBook } from './ledger.ts';
import { whyNotSigned } from './may-sign.ts';
import { formatSignatures, signRecord } from './sign.ts';
import { signaturesOf, signedEntry } from './signature-file.ts';
import { type SignerKey, unlock } from './signer-key.ts';
import { filesOf, type Workshop } from './workshop.ts';
import { writeDurably } from './write-durably.ts';

export interface SignatureWish {
  readonly batch: string;
  readonly name: string;
  readonly passphrase: string;
  readonly meaning: Meaning;
}

const addSignature = (
  workshop: Workshop,
  { run, record }: ClosedBatch,
  { batch, name, meaning }: SignatureWish,
  { kid, key }: SignerKey,
): Done =>
  enter(workshop, ledgerBook(workshop), name, ({ lines, head }) => {
    const why = whyNotSigned(lines, run, { name, meaning });
    if (why !== undefined) return { ok: false, why };
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
  if (closed.value.recovered.some(each => each.signer === name && each.meaning === meaning))
    return done;
  const unlocked = unlock(workshop, keysDir, wish);
  if (!unlocked.ok) return unlocked;
  const signed = addSignature(workshop, closed.value, wish, unlocked.value);
  return signed.ok ? done : signed;
};
