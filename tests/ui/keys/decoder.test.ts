import * as fc from 'fast-check';
import { expect, test } from 'vitest';
import {
  decodeKeys,
  flushKeys,
  freshDecoder,
  type Key,
  patience,
} from '../../../src/ui/keys/decoder.ts';
import { cases, seed } from '../../helpers/cases.ts';

/** The keys of these chunks, nothing flushed. */
const keysOf = (chunks: readonly string[]): readonly Key[] => {
  let state = freshDecoder;
  return chunks.flatMap(chunk => {
    const decoded = decodeKeys(state, chunk);
    state = decoded.state;
    return decoded.keys;
  });
};

const shown = (keys: readonly Key[]): string =>
  keys
    .map(key => {
      if (key.kind === 'text') return key.text;
      if (key.kind === 'ctrl') return `<ctrl-${key.letter}>`;
      return key.kind === 'paste' ? `<paste ${key.text}>` : `<${key.kind}>`;
    })
    .join('');

/** Every way to cut a text into chunks. */
const everySplit = (text: string): readonly (readonly string[])[] =>
  Array.from({ length: 2 ** (text.length - 1) }, (_, cuts) => {
    const chunks = [''];
    Array.from({ length: text.length }, (_, at) => text.charAt(at)).forEach((unit, at) => {
      if (at > 0 && (cuts >> (at - 1)) % 2 === 1) chunks.push('');
      chunks.push((chunks.pop() ?? '') + unit);
    });
    return chunks;
  });

test('gives the same keys for every split of a reading', () => {
  for (const chunks of everySplit('123.45\r')) {
    expect(shown(keysOf(chunks))).toBe('123.45<enter>');
  }
});

test('gives the same keys for every split of mixed sequences', () => {
  for (const chunks of everySplit('\u001b[A\u001b[3~😀\r\n\u001bOp')) {
    expect(shown(keysOf(chunks))).toBe('<up><delete>😀<enter>0');
  }
});

const bytes = '1 2.5 lot-d4y7q é 😀 \r \n \r\n \t \u007f \b \u0003 \u0000'.split(' ');
const sequences =
  '\u001b[A \u001b[1;5C \u001b[3~ \u001bOM \u001bOn \u001b[15~ \u001bOP \u001b[[A \u001b[12\r'.split(
    ' ',
  );
const pieces = fc.constantFrom(...bytes, ...sequences, '\u001b[200~12\r34\u001b[201~');

test('never depends on where the bytes were cut', () => {
  fc.assert(
    fc.property(fc.array(pieces), fc.array(fc.nat({ max: 60 })), (all, cuts) => {
      const text = all.join('');
      const at = [...new Set([0, ...cuts.filter(cut => cut < text.length), text.length])].sort(
        (a, b) => a - b,
      );
      const chunks = at.slice(1).map((end, index) => text.slice(at[index], end));
      expect(keysOf(chunks)).toEqual(keysOf([text]));
    }),
    { numRuns: cases(300), seed },
  );
});

test.each([
  ['\r', '<enter>'],
  ['\n', '<enter>'],
  ['\r\n', '<enter>'],
  ['\r\r', '<enter><enter>'],
  ['\n\n', '<enter><enter>'],
  ['\u001b[H\u001b[F\u001b[1~\u001b[4~\u001bOH\u001bOF', '<home><end><home><end><home><end>'],
  ['\u001b[5~\u001b[6~\u001b[Z\t', '<page-up><page-down><back-tab><tab>'],
  ['\u001bOj\u001bOl\u001bOn\u001bOy\u001bOM\u001bOX', '*,.9<enter>='],
  ['\u001bOP\u001b[11~\u001b[24~\u001b[[E\u001b[1;2P', ''],
  ['\u0001\u0015\u001a', '<ctrl-a><ctrl-u><ctrl-z>'],
  ['9\u0003', '9<ctrl-c>'],
  ['\u007f\u007f\b', '<backspace><backspace><backspace>'],
  ['\u001b\u001b[A', '<escape><up>'],
  ['a\u001b[200~12\r\n34\u001b[201~b', 'a<paste 12\r\n34>b'],
  ['\ud83d1', '1'],
])('reads %j as %s', (bytes, keys) => {
  expect(shown(keysOf([bytes]))).toBe(keys);
});

test('takes a lone escape for the Escape key only when nothing more comes', () => {
  const { keys, state } = decodeKeys(freshDecoder, '\u001b');
  expect(keys).toEqual([]);
  expect(patience(state)).toBe(50);
  expect(flushKeys(state).keys).toEqual([{ kind: 'escape' }]);
  expect(shown(decodeKeys(state, '[A').keys)).toBe('<up>');
});

test('ends a paste that was never closed', () => {
  const { state } = decodeKeys(freshDecoder, '\u001b[200~12.5');
  expect(patience(state)).toBe(1000);
  expect(flushKeys(state)).toEqual({
    keys: [{ kind: 'paste', text: '12.5' }],
    state: freshDecoder,
  });
});

test('waits for nothing when nothing is pending', () => {
  expect(patience(decodeKeys(freshDecoder, '12').state)).toBeUndefined();
});
