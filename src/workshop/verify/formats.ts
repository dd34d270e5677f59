/** The names and shapes on disk that verify relies on, kept apart from the code that writes them. */
import type { Addendum } from '../../core/result/addendum.ts';
import type { BatchRecord, JournalLine } from '../../core/result/record.ts';

export const fileNames = {
  journal: 'journal.jsonl',
  record: 'record.json',
  signatures: 'record.sig.json',
  ledger: 'ledger.jsonl',
  register: 'register.jsonl',
  batches: 'batches',
  addenda: 'addenda',
} as const;

export const recordMediaType: BatchRecord['type'] =
  'application/vnd.tarebook.batch-record+json;version=0';

/** `typ` of a signature: the media type without its `application/`, as RFC 7515 section 4.1.9 recommends. */
export const signatureType = recordMediaType.replace('application/', '');

export const addendumMediaType: Addendum['type'] =
  'application/vnd.tarebook.addendum+json;version=0';

export const addendumSignatureType = addendumMediaType.replace('application/', '');

export const meanings = [
  'made by',
  'witnessed by',
  'reviewed by',
  'released by',
  'rejected by',
] as const;

export const addendumKinds = [
  'packing',
  'retained sample',
  'complaint',
  'correction',
  'assessment',
] as const;

/** Of scales (OIML R 76-1). */
export const accuracyClasses = ['I', 'II', 'III', 'IIII'] as const;

/** What the check of a scale can come to. */
export const checkVerdicts = ['within', 'doubtful', 'beyond'] as const;

/** Far beyond any real batch; a larger file is not read at all. */
export const largestFile = 32 * 1024 * 1024;

export const firstHash = '0'.repeat(64);

/** A line of a chained file whose hash was found right. */
export interface ChainedLine extends JournalLine {
  readonly seq: number;
  readonly at: string;
  readonly by: string;
  readonly type: string;
  readonly hash: string;
}

/** A public Ed25519 key as the register holds it (RFC 8037 section 2). */
export interface PublicJwk {
  readonly kty: 'OKP';
  readonly crv: 'Ed25519';
  readonly x: string;
}

export interface ClosedLine extends ChainedLine {
  readonly type: 'closed';
  readonly batch: string;
  readonly record: string;
  readonly journal: string;
}

export interface SignedLine extends ChainedLine {
  readonly type: 'signed';
  readonly batch: string;
  readonly signature: string;
  readonly signer: string;
  readonly kid: string;
  readonly meaning: string;
}

export interface AddendumLine extends ChainedLine {
  readonly type: 'addendum';
  readonly batch: string;
  readonly n: number;
  readonly kind: string;
  readonly refers?: number;
  readonly addendum: string;
  readonly signature: string;
  readonly signer: string;
  readonly kid: string;
}

export interface EnrolledLine extends ChainedLine {
  readonly type: 'enrolled';
  readonly name: string;
  readonly kid: string;
  readonly key: PublicJwk;
}

export interface SignatureHeader {
  readonly alg: 'Ed25519' | 'EdDSA';
  readonly typ: string;
  readonly kid: string;
  readonly signer: string;
  readonly meaning: string;
  readonly at: string;
  /** The last line of the ledger when it was signed: its number and hash. */
  readonly ledger: { readonly seq: number; readonly prev: string };
}
