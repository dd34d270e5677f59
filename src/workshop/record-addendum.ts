/** The writing side of addenda: their bytes, their line in the ledger, and what an interruption left. */
import type { Done } from '../core/dialogue/bench.ts';
import type { Addendum } from '../core/result/addendum.ts';
import { type Entry, enter } from './book.ts';
import { readIfThere } from './disk.ts';
import { attempt } from './disk-error.ts';
import { fileText } from './file-text.ts';
import { addendumLines, ledgerBook, readLedger } from './ledger.ts';
import { sha256 } from './record-file.ts';
import { keysOf, readRegister } from './register.ts';
import { hashOfSignature, type SignatureEntry } from './sign.ts';
import { readAddendum } from './verify/read-addendum.ts';
import { isSignedBy, readAddendumHeader, readSignatures } from './verify/signature.ts';
import { addendumFiles, filesOf, type Workshop } from './workshop.ts';

/** The bytes of an addendum, which are what is signed. */
export const addendumBytes = (addendum: Addendum): Buffer => Buffer.from(fileText(addendum));

interface SignedAddendum {
  readonly addendum: Addendum;
  readonly bytes: Buffer;
  readonly entry: SignatureEntry;
  readonly kid: string;
}

/** The ledger's line of an addendum. */
export const addendumEntry = ({ addendum, bytes, entry, kid }: SignedAddendum): Entry => ({
  type: 'addendum',
  batch: addendum.batch,
  n: addendum.n,
  kind: addendum.kind,
  ...(addendum.refers === undefined ? {} : { refers: addendum.refers }),
  addendum: sha256(bytes),
  signature: hashOfSignature(entry),
  signer: addendum.by,
  kid,
});

interface Left {
  readonly addendum: Buffer | undefined;
  readonly signature: Buffer | undefined;
}

/** The two files of an addendum as they stand. */
export const readLeft = (workshop: Workshop, batch: string, n: number): Done<Left> => {
  const files = addendumFiles(filesOf(workshop, batch), n);
  return attempt('The addenda could not be read', () => ({
    addendum: readIfThere(workshop.disk, files.addendum),
    signature: readIfThere(workshop.disk, files.signature),
  }));
};

// It goes into the ledger only when it holds, or a planted one would stand there for ever.
const readGood = (
  workshop: Workshop,
  { batch, n, record }: { readonly batch: string; readonly n: number; readonly record: Buffer },
  { addendum: bytes, signature }: Left,
): Done<SignedAddendum> => {
  const bad = {
    ok: false,
    why: `Addendum ${n} of ${batch} does not hold. tarebook verify ${batch} says more.`,
  } as const;
  const register = readRegister(workshop);
  if (!register.ok) return register;
  const addendum = readAddendum(bytes?.toString('utf8') ?? '');
  const [entry, ...others] = readSignatures(signature?.toString('utf8') ?? '') ?? [];
  if (bytes === undefined || addendum === undefined || entry === undefined || others.length > 0) {
    return bad;
  }
  const header = readAddendumHeader(entry.protected);
  const key = keysOf(register.value, addendum.by).find(each => each.kid === header?.kid);
  const isOfThis =
    addendum.batch === batch && addendum.n === n && addendum.record === sha256(record);
  return isOfThis &&
    key !== undefined &&
    header?.signer === addendum.by &&
    isSignedBy(entry, bytes, key.jwk)
    ? { ok: true, value: { addendum, bytes, entry, kid: key.kid } }
    : bad;
};

/** Enters the signed addendum that an interruption kept out of the ledger, and answers it; undefined where there is none. */
export const recordAddendum = (
  workshop: Workshop,
  batch: string,
  record: Buffer,
): Done<Addendum | undefined> => {
  const ledger = readLedger(workshop);
  if (!ledger.ok) return ledger;
  const n = addendumLines(ledger.value, batch).length + 1;
  const left = readLeft(workshop, batch, n);
  if (!left.ok) return left;
  if (left.value.signature === undefined) return { ok: true, value: undefined };
  const good = readGood(workshop, { batch, n, record }, left.value);
  if (!good.ok) return good;
  const { addendum } = good.value;
  const entered = enter(workshop, ledgerBook(workshop), addendum.by, ({ lines }) => ({
    ok: true,
    value: addendumLines(lines, batch).length < n ? addendumEntry(good.value) : undefined,
  }));
  return entered.ok ? { ok: true, value: addendum } : entered;
};
