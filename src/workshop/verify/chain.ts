import { createHash } from 'node:crypto';
import { type ChainedLine, firstHash } from './formats.ts';
import { textOf } from './read-bounded.ts';
import { count, hash, isObject, jsonText, readJson, text } from './shape.ts';

export type ChainRead =
  | { readonly ok: true; readonly lines: readonly ChainedLine[]; readonly isTorn: boolean }
  | BrokenChain;

interface BrokenChain {
  readonly ok: false;
  readonly code: string;
  readonly line: number;
  /** What is wrong, to follow “line 12”. */
  readonly text: string;
}

export const sha256 = (bytes: string | Buffer): string =>
  createHash('sha256').update(bytes).digest('hex');

const isChained = (value: unknown): value is ChainedLine =>
  isObject(value) &&
  count(value['seq']) &&
  text(value['at']) &&
  text(value['by']) &&
  text(value['type']) &&
  hash(value['hash']) &&
  Object.keys(value).at(-1) === 'hash';

const refused = (code: string, line: number, why: string): BrokenChain => ({
  ok: false,
  code,
  line,
  text: why,
});

// The hash covers the bytes before its own member; what follows them has one form only.
const bodyOf = (line: string): { readonly body: string; readonly own: string } | undefined => {
  const match = /^(.*),"hash":"([0-9a-f]{64})"\}$/s.exec(line);
  const [, body, own] = match ?? [];
  return body === undefined || own === undefined ? undefined : { body, own };
};

type LineRead = { readonly ok: true; readonly value: ChainedLine } | BrokenChain;

const readLine = (line: string, previous: string, number: number): LineRead => {
  const parts = bodyOf(line);
  if (parts === undefined) return refused('not-a-line', number, 'does not end with its hash');
  if (sha256(previous + parts.body) !== parts.own) {
    return refused(
      'wrong-hash',
      number,
      'does not have the hash that its bytes and the line before it give',
    );
  }
  const value = readJson(line);
  if (!isChained(value) || jsonText(value) !== line) {
    return refused('not-a-line', number, 'is not written as our lines are');
  }
  return value.seq === number
    ? { ok: true, value }
    : refused('wrong-number', number, 'has the wrong number');
};

/**
 * Reads a chained file whole: each line's hash, number and form. Stops at the first that is wrong; what
 * stands after the last newline is no line yet (a write that was cut off) and is only marked.
 */
export const readChain = (bytes: Buffer): ChainRead => {
  const source = textOf(bytes);
  if (source === undefined) return refused('not-text', 1, 'is not UTF-8 text');
  const rows = source.split('\n');
  const isTorn = rows.pop() !== '';
  const lines: ChainedLine[] = [];
  for (const row of rows) {
    const line = readLine(row, lines.at(-1)?.hash ?? firstHash, lines.length + 1);
    if (!line.ok) return line;
    lines.push(line.value);
  }
  return { ok: true, lines, isTorn };
};
