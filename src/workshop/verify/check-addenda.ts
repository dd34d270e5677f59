/** What was added after closing: each addendum by itself, and against register, record and ledger. */
import type { Addendum } from '../../core/result/addendum.ts';
import type { BatchRecord } from '../../core/result/record.ts';
import {
  type AddendaFolder,
  type AddendumFiles,
  listAddenda,
  readAddendumFiles,
} from './addenda-folder.ts';
import { addendumLinesOf, type Books } from './books.ts';
import { sha256 } from './chain.ts';
import { checkKey, checkPlace, type Fault, hashOf } from './check-signatures.ts';
import { type Claim, fails, holds, unfinished } from './claim.ts';
import { type AddendumLine, addendumSignatureType } from './formats.ts';
import { readAddendum } from './read-addendum.ts';
import { textOf } from './read-bounded.ts';
import { readAddendumHeader, readSignatures } from './signature.ts';

export interface Closed {
  readonly folder: string;
  readonly batch: string;
  /** Of record.json. */
  readonly bytes: Buffer;
  /** Undefined where it cannot be read. */
  readonly record: BatchRecord | undefined;
  readonly books: Books;
}

/** An addendum that holds and is in the ledger, with its line's number there. */
export interface Counted {
  readonly addendum: Addendum;
  readonly seq: number;
}

export interface AddendaRead {
  readonly claims: readonly Claim[];
  readonly counted: readonly Counted[];
}

/** How many deviations a record lists; whatever else stands there is none. */
export const deviationsIn = ({ result }: BatchRecord): number => {
  const list: unknown = result.deviations;
  return Array.isArray(list) ? list.length : 0;
};

const checkReference = ({ kind, refers }: Addendum, record: BatchRecord | undefined): Fault => {
  if (kind !== 'assessment') {
    return refers === undefined ? undefined : ['reference', 'names a deviation, but assesses none'];
  }
  const most = record === undefined ? Infinity : deviationsIn(record);
  return refers !== undefined && refers >= 1 && refers <= most
    ? undefined
    : ['reference', 'assesses a deviation that the record does not have'];
};

const checkContent = (addendum: Addendum, n: number, { batch, bytes, record }: Closed): Fault => {
  if (addendum.batch !== batch) return ['other-batch', 'is of another batch'];
  if (addendum.n !== n) return ['other-number', 'has another number than its file'];
  if (addendum.record !== sha256(bytes)) return ['other-record', 'was added to another record'];
  return checkReference(addendum, record);
};

const checkSignature = (
  addendum: Addendum,
  bytes: Buffer,
  { signature }: AddendumFiles,
  { batch, books }: Closed,
  line: AddendumLine | undefined,
): Fault => {
  const source = signature.kind === 'read' ? textOf(signature.bytes) : undefined;
  const [entry, ...others] = readSignatures(source ?? '') ?? [];
  const header = entry && readAddendumHeader(entry.protected);
  if (entry === undefined || header === undefined || others.length > 0) {
    return ['bad-signature', 'has no signature that is written as ours are'];
  }
  if (header.typ !== addendumSignatureType) {
    return ['wrong-type', 'has a signature of something else'];
  }
  if (header.signer !== addendum.by) return ['other-signer', 'is signed by somebody else'];
  const signed = { bytes, batch, books };
  const fault = checkKey(entry, header, signed) ?? checkPlace(header, signed, line);
  if (fault !== undefined) return [fault[0], `has a signature that ${fault[1]}`];
  return line === undefined || (line.signature === hashOf(entry) && line.kid === header.kid)
    ? undefined
    : ['other-line', 'has another signature than the ledger says'];
};

const checkLine = (addendum: Addendum, bytes: Buffer, line: AddendumLine | undefined): Fault => {
  if (line === undefined) return undefined;
  if (line.addendum !== sha256(bytes)) return ['other-addendum', 'is not the one in the ledger'];
  return line.kind === addendum.kind &&
    line.refers === addendum.refers &&
    line.signer === addendum.by
    ? undefined
    : ['other-line', 'is something else than the ledger says'];
};

interface One {
  readonly claim: Claim;
  readonly counted?: Counted;
}

const checkOne = (
  n: number,
  line: AddendumLine | undefined,
  isLast: boolean,
  closed: Closed,
): One => {
  const fail = (code: string, why: string): One => ({
    claim: fails('addendum', code, `Addendum ${n} ${why}.`),
  });
  const files = readAddendumFiles(closed.folder, n);
  if (files.addendum.kind === 'missing') return fail('missing', 'is gone');
  if (files.addendum.kind === 'unreadable') return fail('unreadable', 'cannot be read');
  const { bytes } = files.addendum;
  const addendum = readAddendum(textOf(bytes) ?? '');
  if (addendum === undefined) return fail('other-form', 'is not written as ours are');
  const isWaiting = line === undefined && isLast;
  const content = checkContent(addendum, n, closed) ?? checkLine(addendum, bytes, line);
  if (content !== undefined) return fail(...content);
  if (isWaiting && files.signature.kind === 'missing') {
    const text = `Addendum ${n} was interrupted before it was signed; it does not count. Add it again.`;
    return { claim: unfinished('addendum', 'unsigned', text) };
  }
  const fault = checkSignature(addendum, bytes, files, closed, line);
  if (fault !== undefined) return fail(...fault);
  if (line !== undefined) {
    const text = `${addendum.by} added number ${n}: ${addendum.kind}, ${addendum.at}.`;
    return { claim: holds('addendum', text), counted: { addendum, seq: line.seq } };
  }
  return isWaiting
    ? { claim: unfinished('addendum', 'not-in-ledger', waitingText(n)) }
    : fail('not-in-ledger', 'is not in the ledger');
};

const waitingText = (n: number): string =>
  `Addendum ${n} is not in the ledger yet; adding it again finishes it.`;

const checkAll = (
  { strays }: AddendaFolder,
  numbers: readonly number[],
  lines: readonly AddendumLine[],
): Claim => {
  const [stray] = strays;
  if (stray !== undefined) {
    return fails('added', 'stray', `Among the addenda stands a file that is none: ${stray}.`);
  }
  if (lines.some(({ n }, index) => n !== index + 1)) {
    return fails('added', 'numbering', 'The ledger does not count the addenda from 1 on.');
  }
  const gap = numbers.findIndex((n, index) => n !== index + 1);
  if (gap >= 0) return fails('added', 'gap', `Addendum ${gap + 1} is gone.`);
  return holds(
    'added',
    numbers.length === 0
      ? 'Nothing was added after closing.'
      : 'The addenda are numbered without a gap, and nothing else stands among them.',
  );
};

/** The claims on addenda, and those that count. */
export const checkAddenda = (closed: Closed): AddendaRead => {
  const there = listAddenda(closed.folder);
  if (there === undefined) {
    return {
      claims: [fails('added', 'unreadable', 'The folder of the addenda cannot be read.')],
      counted: [],
    };
  }
  const lines = addendumLinesOf(closed.books, closed.batch);
  const all = new Set([...there.numbers, ...lines.map(({ n }) => n)]);
  const numbers = [...all].toSorted((a, b) => a - b);
  const each = numbers.map(n =>
    checkOne(
      n,
      lines.find(line => line.n === n),
      n === numbers.at(-1),
      closed,
    ),
  );
  return {
    claims: [...each.map(({ claim }) => claim), checkAll(there, numbers, lines)],
    counted: each.flatMap(({ counted }) => counted ?? []),
  };
};
