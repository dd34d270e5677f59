/**
 * One signature of a record: JWS with a detached payload (RFC 7515 appendix F), Ed25519 (RFC 8037,
 * RFC 9864). Checked with node:crypto and a strict reader of our own: jose is meant for any header and
 * any curve, takes several spellings of the same base64url, and costs the start of `verify` 6 ms more.
 */
import { createHash, createPublicKey, verify } from 'node:crypto';
import { meanings, type PublicJwk, type SignatureHeader } from './formats.ts';
import {
  count,
  hash,
  isWrittenAsOurs,
  jsonText,
  keyId,
  listOf,
  oneOf,
  readJson,
  shape,
  text,
} from './shape.ts';

/** A signature as it stands in record.sig.json. */
export interface SignatureEntry {
  readonly protected: string;
  readonly signature: string;
}

/** Strict base64url without padding: the one spelling of its bytes, or undefined. */
export const readBase64url = (source: string): Buffer | undefined => {
  const bytes = Buffer.from(source, 'base64url');
  return bytes.toString('base64url') === source ? bytes : undefined;
};

const fileShape = shape({ signatures: listOf(shape({ protected: text, signature: text })) });

const isSignatureFile = (
  value: unknown,
): value is { readonly signatures: readonly SignatureEntry[] } => fileShape(value);

/** Reads record.sig.json; undefined unless it is in its one byte form. */
export const readSignatures = (source: string): readonly SignatureEntry[] | undefined => {
  const value = readJson(source);
  return isSignatureFile(value) && isWrittenAsOurs(value, source) ? value.signatures : undefined;
};

const headerReader = (...known: readonly string[]) => {
  const isShaped = shape({
    alg: oneOf('Ed25519', 'EdDSA'),
    typ: text,
    kid: keyId,
    signer: text,
    meaning: oneOf(...known),
    at: text,
    ledger: shape({ seq: count, prev: hash }),
  });
  const isHeader = (value: unknown): value is SignatureHeader => isShaped(value);
  return (encoded: string): SignatureHeader | undefined => {
    const source = readBase64url(encoded)?.toString('utf8') ?? '';
    const value = readJson(source);
    return isHeader(value) && jsonText(value) === source ? value : undefined;
  };
};

/** Reads a record's protected header; undefined for a further member (`crit` included), a missing one, or another spelling. */
export const readHeader = headerReader(...meanings);

/** The same of an addendum. */
export const readAddendumHeader = headerReader('added by');

/** Whether plain Ed25519 (RFC 8032) over these bytes was made with that key; strict about base64url. */
export const isRawSignedBy = (
  signature: string,
  bytes: Buffer,
  { kty, crv, x }: PublicJwk,
): boolean => {
  const read = readBase64url(signature);
  const point = readBase64url(x);
  if (read?.length !== 64 || point?.length !== 32) return false;
  const key = createPublicKey({ format: 'jwk', key: { kty, crv, x } });
  return verify(null, bytes, key, read);
};

/** Whether the signature is the key's over the header and the payload. */
export const isSignedBy = (entry: SignatureEntry, payload: Buffer, jwk: PublicJwk): boolean =>
  isRawSignedBy(
    entry.signature,
    Buffer.from(`${entry.protected}.${payload.toString('base64url')}`),
    jwk,
  );

/** The key's name by its own bytes: RFC 7638, SHA-256, members in alphabetical order. */
export const thumbprintOf = ({ kty, crv, x }: PublicJwk): string =>
  createHash('sha256').update(JSON.stringify({ crv, kty, x })).digest('base64url');
