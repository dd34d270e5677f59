/**
 * The one line format of journal, ledger and register: a JSON object on one line whose last member is
 * `hash`, the SHA-256 of the previous line's hash (its 64 characters; zeros before the first line) and
 * of the line's bytes before `,"hash"`.
 */
import { createHash } from 'node:crypto';
import type { JournalLine } from '../core/result/record.ts';

/** Stands for the hash before the first line. */
export const firstHash = '0'.repeat(64);

/** Bytes; a journal's first line holds a whole sheet, and a sheet has 1 MiB at most. */
export const longestLine = 4_194_304;

export interface ChainedLine {
  /** Counts from 1. */
  readonly n: number;
  /** The object without its hash. */
  readonly body: Readonly<Record<string, unknown>>;
  readonly hash: string;
}

type Fault =
  /** No newline at the end: a write that a power cut ended. */
  | { readonly kind: 'torn' }
  | { readonly kind: 'damaged'; readonly line: number; readonly why: string };

/** The good lines from the start of a file, and what stands after them. */
export interface Scan {
  readonly lines: readonly ChainedLine[];
  /** Hash of the last good line. */
  readonly head: string;
  /** Bytes up to the end of the last good line. */
  readonly end: number;
  readonly fault?: Fault;
}

const hashOf = (previous: string, body: Uint8Array | string): string =>
  createHash('sha256').update(previous).update(body).digest('hex');

/** The line with its newline, and its hash. The value must have a member and none called `hash`. */
export const formatLine = (
  value: Readonly<Record<string, unknown>>,
  previous: string,
): { readonly text: string; readonly hash: string } => {
  const body = JSON.stringify(value).slice(0, -1);
  const hash = hashOf(previous, body);
  return { text: `${body},"hash":"${hash}"}\n`, hash };
};

/** The line as the record keeps it: the object with its hash, last. */
export const asJournalLine = ({ body, hash }: ChainedLine): JournalLine => ({ ...body, hash });

const isObject = (value: unknown): value is Readonly<Record<string, unknown>> =>
  typeof value === 'object' && value !== null && !Array.isArray(value);

// Only text that our own writer would have written is taken: a repeated member, other blanks or another
// spelling of a number would mean one thing here and perhaps another to the next reader.
const parseBody = (text: string): Readonly<Record<string, unknown>> | undefined => {
  try {
    const value: unknown = JSON.parse(text);
    return isObject(value) && !Object.hasOwn(value, 'hash') && JSON.stringify(value) === text
      ? value
      : undefined;
  } catch {
    return undefined;
  }
};

const tail = /^,"hash":"([0-9a-f]{64})"\}$/;
const tailLength = 75;
const strictText = new TextDecoder('utf-8', { fatal: true, ignoreBOM: true });

const decode = (bytes: Uint8Array): string | undefined => {
  try {
    return strictText.decode(bytes);
  } catch {
    return undefined;
  }
};

const readLine = (bytes: Uint8Array, previous: string, n: number): ChainedLine | string => {
  if (bytes.length > longestLine) return 'it is longer than any line of ours';
  const text = decode(bytes);
  if (text === undefined) return 'it is not text';
  const hash = tail.exec(text.slice(-tailLength))?.[1];
  if (hash === undefined) return 'it does not end with its hash';
  if (hashOf(previous, bytes.subarray(0, -tailLength)) !== hash) {
    return 'its hash does not fit its bytes and the line before it';
  }
  const body = parseBody(`${text.slice(0, -tailLength)}}`);
  return body === undefined ? 'it is not written as our lines are' : { n, body, hash };
};

/** Reads chained lines up to the first that is torn or damaged. */
export const scanLines = (bytes: Uint8Array): Scan => {
  const lines: ChainedLine[] = [];
  let head = firstHash;
  let end = 0;
  while (end < bytes.length) {
    const newline = bytes.indexOf(10, end);
    if (newline < 0) return { lines, head, end, fault: { kind: 'torn' } };
    const n = lines.length + 1;
    const line = readLine(bytes.subarray(end, newline), head, n);
    if (typeof line === 'string') {
      return { lines, head, end, fault: { kind: 'damaged', line: n, why: line } };
    }
    lines.push(line);
    head = line.hash;
    end = newline + 1;
  }
  return { lines, head, end };
};
