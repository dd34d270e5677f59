/**
 * Signatures of a record: JWS in general JSON serialisation (RFC 7515), the payload detached as its
 * appendix F says, Ed25519 by its fully specified name (RFC 9864). Made with node:crypto alone, so that
 * a signature and its ledger line can be made in one go under the ledger's lock.
 */
import { createHash, type KeyObject, sign } from 'node:crypto';
import type { Meaning } from '../core/dialogue/bench.ts';
import { addendumType } from '../core/result/addendum.ts';
import { recordType } from '../core/result/record.ts';
import { formatInstant, type Instant } from '../core/time/instant.ts';
import { fileText } from './file-text.ts';

/** One signature as record.sig.json holds it; both members are base64url. */
export interface SignatureEntry {
  readonly protected: string;
  readonly signature: string;
}

export interface Statement {
  readonly kid: string;
  readonly signer: string;
  readonly meaning: Meaning;
  readonly at: Instant;
  /** The last line of the ledger when it was signed: its number and hash. */
  readonly ledger: { readonly seq: number; readonly prev: string };
}

/** Plain Ed25519 (RFC 8032): 64 bytes, the same each time. */
export const signBytes = (bytes: Uint8Array, key: KeyObject): Buffer => sign(null, bytes, key);

/** Signs a payload under a protected header: BASE64URL(header) . BASE64URL(payload) (RFC 7515 section 5.1). */
export const signDetached = (
  header: Readonly<Record<string, unknown>>,
  payload: Uint8Array,
  key: KeyObject,
): SignatureEntry => {
  const head = Buffer.from(JSON.stringify(header)).toString('base64url');
  const input = `${head}.${Buffer.from(payload).toString('base64url')}`;
  return { protected: head, signature: signBytes(Buffer.from(input), key).toString('base64url') };
};

type Signed = Omit<Statement, 'meaning'> & { readonly meaning: string };

// A media type stands without its `application/`, as RFC 7515 section 4.1.9 recommends.
const signAs = (
  type: string,
  payload: Uint8Array,
  { kid, signer, meaning, at, ledger }: Signed,
  key: KeyObject,
): SignatureEntry =>
  signDetached(
    {
      alg: 'Ed25519',
      typ: type.replace('application/', ''),
      kid,
      signer,
      meaning,
      at: formatInstant(at),
      ledger: { seq: ledger.seq, prev: ledger.prev },
    },
    payload,
    key,
  );

/** Signs the bytes of a record with what the signature means (21 CFR 11.50). */
export const signRecord = (
  record: Uint8Array,
  statement: Statement,
  key: KeyObject,
): SignatureEntry => signAs(recordType, record, statement, key);

/** Signs the bytes of an addendum; the meaning is always that it was added. */
export const signAddendum = (
  addendum: Uint8Array,
  statement: Omit<Statement, 'meaning'>,
  key: KeyObject,
): SignatureEntry => signAs(addendumType, addendum, { ...statement, meaning: 'added by' }, key);

/** The one byte form of record.sig.json. */
export const formatSignatures = (signatures: readonly SignatureEntry[]): string =>
  fileText({ signatures });

/** The SHA-256 by which the ledger names a signature: of its two members with a full stop between. */
export const hashOfSignature = (entry: SignatureEntry): string =>
  createHash('sha256').update(`${entry.protected}.${entry.signature}`).digest('hex');
