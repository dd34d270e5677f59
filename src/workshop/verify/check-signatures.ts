/** Each signature by itself, and against the register and the ledger. */
import { readInstant } from '../../core/time/instant.ts';
import { type Books, closedLinesOf, signedLinesOf } from './books.ts';
import { sha256 } from './chain.ts';
import { type Claim, fails, holds, unfinished } from './claim.ts';
import { type SignatureHeader, type SignedLine, signatureType } from './formats.ts';
import { isSignedBy, readHeader, readSignatures, type SignatureEntry } from './signature.ts';

export interface Signed {
  /** What was signed. */
  readonly bytes: Buffer;
  readonly batch: string;
  readonly books: Books;
}

/** What is wrong, as code and words to follow “Signature 1”; undefined where nothing is. */
export type Fault = readonly [code: string, why: string] | undefined;

const checkHeader = ({ typ, at }: SignatureHeader): Fault => {
  if (typ !== signatureType) return ['wrong-type', 'is not a signature of a batch record'];
  return readInstant(at) === undefined
    ? ['no-instant', 'does not say when it was made']
    : undefined;
};

/** What is wrong with a signature's key. */
export const checkKey = (
  entry: SignatureEntry,
  header: SignatureHeader,
  { bytes, books }: Signed,
): Fault => {
  const key = books.keys.find(each => each.kid === header.kid);
  if (key === undefined) return ['unknown-key', 'was made with a key that is not on the register'];
  if (key.name !== header.signer) {
    return ['other-signer', 'names another person than the owner of its key'];
  }
  return isSignedBy(entry, bytes, key.key)
    ? undefined
    : ['wrong-signature', 'does not fit the bytes that it should cover'];
};

export const hashOf = (entry: SignatureEntry): string =>
  sha256(`${entry.protected}.${entry.signature}`);

/**
 * The header names the ledger's last line at that moment: it must be there still, at or after the line
 * that closed the batch and before the line of the signature itself.
 */
export const checkPlace = (
  { ledger: { seq, prev } }: SignatureHeader,
  { batch, books }: Signed,
  line: { readonly seq: number } | undefined,
): Fault => {
  const [closed] = closedLinesOf(books, batch);
  const isThere = books.ledger.some(each => each.seq === seq && each.hash === prev);
  const isBetween =
    closed !== undefined && seq >= closed.seq && (line === undefined || line.seq > seq);
  return isThere && isBetween
    ? undefined
    : ['other-ledger', 'was made on another ledger, or at another place in it'];
};

const says = ({ signer, kid, meaning }: SignatureHeader | SignedLine): string =>
  JSON.stringify([signer, kid, meaning]);

const checkEntry = (entry: SignatureEntry, number: number, signed: Signed): Claim => {
  const header = readHeader(entry.protected);
  if (header === undefined) {
    return fails('signature', 'bad-header', `Signature ${number} is not written as ours are.`);
  }
  const line = signedLinesOf(signed.books, signed.batch).find(
    each => each.signature === hashOf(entry),
  );
  const fault =
    checkHeader(header) ?? checkKey(entry, header, signed) ?? checkPlace(header, signed, line);
  if (fault !== undefined) return fails('signature', fault[0], `Signature ${number} ${fault[1]}.`);
  return line !== undefined && says(line) !== says(header)
    ? fails('signature', 'other-line', `The ledger says something else of signature ${number}.`)
    : holds('signature', `${header.signer} signed: ${header.meaning}, ${header.at}.`);
};

const checkLedger = (entries: readonly SignatureEntry[], { books, batch }: Signed): Claim => {
  const lines = signedLinesOf(books, batch);
  const [inFile, inLedger] = [entries.map(hashOf), lines.map(line => line.signature)];
  if (new Set(inFile).size < inFile.length || new Set(inLedger).size < inLedger.length) {
    return fails('signed', 'twice', 'The same signature stands there twice.');
  }
  const lost = lines.find(line => !inFile.includes(line.signature));
  if (lost !== undefined) {
    return fails('signed', 'removed', `The signature in line ${lost.seq} of the ledger is gone.`);
  }
  const waiting = inFile.filter(each => !inLedger.includes(each)).length;
  return waiting === 0
    ? holds('signed', 'Every signature is in the ledger, and every one in the ledger is here.')
    : unfinished(
        'signed',
        'not-in-ledger',
        'A signature is not in the ledger yet; resume finishes it.',
      );
};

/** The claims on record.sig.json; `source` is undefined where the file is not there. */
export const checkSignatures = (source: string | undefined, signed: Signed): readonly Claim[] => {
  const entries = source === undefined ? [] : readSignatures(source);
  if (entries === undefined) {
    return [
      fails('signature', 'other-form', 'record.sig.json is not written byte for byte as ours are.'),
    ];
  }
  const ledger = checkLedger(entries, signed);
  const each = entries.map((entry, index) => checkEntry(entry, index + 1, signed));
  return each.length === 0 && ledger.state === 'holds'
    ? [unfinished('signature', 'unsigned', 'The record is not signed yet.')]
    : [...each, ledger];
};
