import { type Done, type Meaning, meanings } from '../core/dialogue/bench.ts';
import { type Entry, enter } from './book.ts';
import { readIfThere } from './disk.ts';
import { attempt } from './disk-error.ts';
import { ledgerBook, readLedger, signedLines } from './ledger.ts';
import { keysOf, type RegisterLine, readRegister } from './register.ts';
import { hashOfSignature, type SignatureEntry } from './sign.ts';
import { isSignedBy, readHeader, readSignatures } from './verify/signature.ts';
import { filesOf, type Workshop } from './workshop.ts';

/** Who signed, and what it means. */
export interface Signed {
  readonly signer: string;
  readonly meaning: Meaning;
}

/** The signatures of a batch as they stand beside its record; none where there is no file. */
export const signaturesOf = (
  workshop: Workshop,
  batch: string,
): Done<readonly SignatureEntry[]> => {
  const path = filesOf(workshop, batch).signatures;
  const read = attempt('The signatures could not be read', () => readIfThere(workshop.disk, path));
  if (!read.ok) return read;
  const entries = read.value === undefined ? [] : readSignatures(read.value.toString('utf8'));
  return entries === undefined
    ? { ok: false, why: `${path} is damaged. Bring it back from a backup.` }
    : { ok: true, value: entries };
};

/** The ledger's line of a signature. */
export const signedEntry = (
  batch: string,
  entry: SignatureEntry,
  { signer, kid, meaning }: Signed & { readonly kid: string },
): Entry => ({
  type: 'signed',
  batch,
  signature: hashOfSignature(entry),
  signer,
  kid,
  meaning,
});

// A signature goes into the ledger only when it holds, or a planted one would stand there for ever.
const readGood = (
  register: readonly RegisterLine[],
  record: Buffer,
  entry: SignatureEntry,
): (Signed & { readonly kid: string }) | undefined => {
  const { signer = '', kid, meaning } = readHeader(entry.protected) ?? {};
  const key = keysOf(register, signer).find(each => each.kid === kid);
  const known = meanings.find(each => each === meaning);
  return key !== undefined && known !== undefined && isSignedBy(entry, record, key.jwk)
    ? { signer, kid: key.kid, meaning: known }
    : undefined;
};

/** Enters the signatures that an interruption kept out of the ledger, and answers whose they are. */
export const recordSignatures = (
  workshop: Workshop,
  batch: string,
  record: Buffer,
): Done<readonly Signed[]> => {
  const entries = signaturesOf(workshop, batch);
  if (!entries.ok) return entries;
  if (entries.value.length === 0) return { ok: true, value: [] };
  const ledger = readLedger(workshop);
  if (!ledger.ok) return ledger;
  const register = readRegister(workshop);
  if (!register.ok) return register;
  const known = new Set(signedLines(ledger.value, batch).map(line => line.signature));
  const recovered: Signed[] = [];
  for (const entry of entries.value) {
    if (known.has(hashOfSignature(entry))) continue;
    const signed = readGood(register.value, record, entry);
    if (signed === undefined) {
      return {
        ok: false,
        why: `A signature of ${batch} does not hold. tarebook verify ${batch} says more.`,
      };
    }
    const entered = enter(workshop, ledgerBook(workshop), signed.signer, ({ lines }) => {
      const line = signedEntry(batch, entry, signed);
      const isThere = signedLines(lines, batch).some(each => each.signature === line['signature']);
      return { ok: true, value: isThere ? undefined : line };
    });
    if (!entered.ok) return entered;
    recovered.push(signed);
  }
  return { ok: true, value: recovered };
};
