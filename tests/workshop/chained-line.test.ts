import { createHash } from 'node:crypto';
import * as fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import {
  asJournalLine,
  firstHash,
  formatLine,
  longestLine,
  scanLines,
} from '../../src/workshop/chained-line.ts';
import { cases, seed } from '../helpers/cases.ts';

// Invented data throughout.
const chain = (values: readonly Record<string, unknown>[]): string => {
  let previous = firstHash;
  return values
    .map(value => {
      const { text, hash } = formatLine(value, previous);
      previous = hash;
      return text;
    })
    .join('');
};

const three = [
  { seq: 1, type: 'begun', name: 'Ana' },
  { seq: 2, type: 'noted', text: 'a "quoted" word, ä and 😀' },
  { seq: 3, type: 'ticked' },
];
const bytes = Buffer.from(chain(three));

const hashed = (body: string): string => {
  const hash = createHash('sha256').update(firstHash).update(body).digest('hex');
  return `${body},"hash":"${hash}"}\n`;
};

test('a hash covers the hash before and the bytes before its own member', () => {
  const [first, second] = bytes.toString().split('\n');
  const one = createHash('sha256')
    .update(`${'0'.repeat(64)}{"seq":1,"type":"begun","name":"Ana"`)
    .digest('hex');
  expect(first).toBe(`{"seq":1,"type":"begun","name":"Ana","hash":"${one}"}`);
  const two = createHash('sha256')
    .update(`${one}{"seq":2,"type":"noted","text":"a \\"quoted\\" word, ä and 😀"`)
    .digest('hex');
  expect(second?.endsWith(`,"hash":"${two}"}`)).toBe(true);
});

test('what was written is read back, each line with its hash last', () => {
  const scan = scanLines(bytes);
  expect(scan.fault).toBeUndefined();
  expect(scan.lines.map(line => line.body)).toEqual(three);
  expect(scan.end).toBe(bytes.length);
  expect(scan.head).toBe(scan.lines.at(-1)?.hash);
  const [line] = scan.lines;
  expect(Object.keys(asJournalLine(line!)).at(-1)).toBe('hash');
});

test('no bytes are no lines, and no fault', () => {
  expect(scanLines(Buffer.alloc(0))).toEqual({ lines: [], head: firstHash, end: 0 });
});

test('a file cut at any byte keeps its whole lines, and the rest is torn', () => {
  const ends = [0, ...scanEnds(bytes)];
  for (let length = 0; length < bytes.length; length += 1) {
    const scan = scanLines(bytes.subarray(0, length));
    const end = ends.findLast(each => each <= length);
    expect(scan.end).toBe(end);
    expect(scan.fault?.kind).toBe(end === length ? undefined : 'torn');
    expect(scan.lines).toHaveLength(ends.indexOf(end ?? 0));
  }
});

const scanEnds = (all: Buffer): number[] =>
  [...all.entries()].flatMap(([index, byte]) => (byte === 10 ? index + 1 : []));

test('any one bit that is turned is found, in its own line or at the end', () => {
  const lastNewline = bytes.length - 1;
  for (let bit = 0; bit < bytes.length * 8; bit += 1) {
    const turned = Buffer.from(bytes);
    const at = bit >> 3;
    turned[at] = turned[at]! ^ (1 << (bit & 7));
    const { fault, lines } = scanLines(turned);
    if (fault === undefined) throw new Error(`bit ${bit} was not found`);
    const before = scanEnds(bytes).filter(end => end <= at).length;
    expect(lines).toHaveLength(before);
    if (at !== lastNewline) expect(fault).toMatchObject({ kind: 'damaged', line: before + 1 });
  }
});

describe('a line is damage', () => {
  test.each([
    ['with the same member twice', hashed('{"a":1,"a":2')],
    ['with a hash of its own inside', hashed('{"hash":"x","a":1')],
    ['with blanks that we do not write', hashed('{ "a":1')],
    ['with a number in another spelling', hashed('{"a":1.0')],
    ['that is a list', hashed('[1')],
    ['that is no JSON', hashed('{"a":')],
    ['that is empty', '\n'],
    ['with a carriage return', hashed('{"a":1').replace('\n', '\r\n')],
    ['without a hash', '{"a":1}\n'],
  ])('%s', (_, text) => {
    expect(scanLines(Buffer.from(text)).fault).toMatchObject({ kind: 'damaged', line: 1 });
  });

  test('with bytes that are no text', () => {
    const body = Buffer.concat([Buffer.from('{"a":"'), Buffer.of(0xff), Buffer.from('"')]);
    const hash = createHash('sha256').update(firstHash).update(body).digest('hex');
    const line = Buffer.concat([body, Buffer.from(`,"hash":"${hash}"}\n`)]);
    expect(scanLines(line).fault).toMatchObject({ kind: 'damaged', why: 'it is not text' });
  });

  test('when it is longer than any of ours', () => {
    const { text } = formatLine({ a: 'x'.repeat(longestLine) }, firstHash);
    expect(scanLines(Buffer.from(text)).fault).toMatchObject({ kind: 'damaged', line: 1 });
  });

  test('when two lines changed places', () => {
    const [one, two, last] = bytes.toString().split('\n');
    const turned = Buffer.from(`${two}\n${one}\n${last}\n`);
    expect(scanLines(turned).fault).toMatchObject({ kind: 'damaged', line: 1 });
  });
});

test('any values at all are read back as they were', () => {
  const value = fc.dictionary(
    fc.stringMatching(/^[a-z]{1,8}$/).filter(key => key !== 'hash'),
    fc.jsonValue().map(each => JSON.parse(JSON.stringify(each)) as unknown),
    { minKeys: 1 },
  );
  fc.assert(
    fc.property(fc.array(value, { maxLength: 4 }), values => {
      const scan = scanLines(Buffer.from(chain(values)));
      expect(scan.fault).toBeUndefined();
      expect(JSON.stringify(scan.lines.map(line => line.body))).toBe(JSON.stringify(values));
    }),
    { numRuns: cases(200), seed },
  );
});
