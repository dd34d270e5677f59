import { readFileSync } from 'node:fs';
import * as fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { readSheet, type SheetReading } from '../../../src/core/sheet/read-sheet.ts';
import { cases, seed } from '../../helpers/cases.ts';

const read = (path: string): string =>
  readFileSync(new URL(`../../../${path}`, import.meta.url), 'utf8');

const sheets = [
  read('tests/fixtures/sheets/cedar-domes.yaml'),
  read('sheets/lemon-salt-scrub.yaml'),
];

const run = { numRuns: cases(300), seed };

const isInside = (text: string, { problems }: SheetReading): boolean => {
  const lines = text.split('\n');
  return problems.every(({ line, column, message, mend }) => {
    const length = lines[line - 1]?.length ?? -1;
    return column >= 1 && column <= length + 1 && message !== '' && mend !== '';
  });
};

const check = (text: string): void => {
  const reading = readSheet(text);
  expect(reading.ok || reading.problems.some(each => each.severity === 'error')).toBe(true);
  expect(isInside(text, reading)).toBe(true);
};

// What slips and attacks are made of.
const words =
  '{ } [ ] : , - ? &a *a !t " \' | > # % --- \\ 0 1/0 − 1,5 rest toString constructor __proto__';
const signs = ['- ', ': ', '? ', '\n', '\t', '\r', '\0', '\u001b', '\u202e', '\ud800', '\ufeff'];
const scraps = fc.constantFrom(...words.split(' '), ...signs, '\ufffd', '  ', '9'.repeat(70));

const changed = fc
  .record({
    sheet: fc.constantFrom(...sheets),
    edits: fc.array(
      fc.record({
        at: fc.double({ min: 0, max: 1, noNaN: true }),
        cut: fc.nat({ max: 12 }),
        put: fc.oneof(scraps, fc.constant(''), fc.string({ unit: 'binary', maxLength: 4 })),
      }),
      { minLength: 1, maxLength: 5 },
    ),
  })
  .map(({ sheet, edits }) =>
    edits.reduce((text, { at, cut, put }) => {
      const start = Math.floor(at * text.length);
      return text.slice(0, start) + put + text.slice(start + cut);
    }, sheet),
  );

const moved = fc
  .record({ sheet: fc.constantFrom(...sheets), from: fc.nat(), to: fc.nat() })
  .map(({ sheet, from, to }) => {
    const lines = sheet.split('\n');
    const [line = ''] = lines.splice(from % lines.length, 1);
    lines.splice(to % lines.length, 0, line);
    return lines.join('\n');
  });

describe('text that is no sheet', () => {
  test('made of random bytes is answered with problems inside the file', () => {
    fc.assert(
      fc.property(fc.uint8Array({ maxLength: 400 }), bytes => {
        check(new TextDecoder().decode(bytes));
      }),
      run,
    );
  });

  test('made of scraps of YAML is answered with problems inside the file', () => {
    fc.assert(
      fc.property(fc.array(scraps, { maxLength: 60 }), parts => {
        check(parts.join(''));
      }),
      run,
    );
  });

  test('made of a sheet by small changes is answered with problems inside the file', () => {
    fc.assert(fc.property(changed, check), run);
  });

  test('made of a sheet by moving a line is answered with problems inside the file', () => {
    fc.assert(fc.property(moved, check), run);
  });

  // As far as the limits on size and depth let through.
  test.each([
    ['many keys', Array.from({ length: 4900 }, (_, i) => `k${i}:`).join('\n')],
    [
      'many keys in braces',
      `a: {${Array.from({ length: 40_000 }, (_, i) => `k${i % 800}`)
        .join(',\n')
        .slice(0, 20_000)}}`,
    ],
    ['many items', `phases:\n${'  - x\n'.repeat(4900)}`],
    ['a long text', `sheet: "${'word '.repeat(380)}"`],
    ['many dashes', '- - - - - - - - - - - - - - -\n'.repeat(4900)],
    ['many anchors', '- &a x\n'.repeat(4900)],
    ['many quotes', `- ${'"'.repeat(50)}\n`.repeat(4900)],
    ['many brackets', `${'['.repeat(45)}\n${'a,\n'.repeat(4000)}`],
    ['a literal', `a: |\n${' x\n'.repeat(4900)}`],
    ['many questions', '? a\n'.repeat(4900)],
    ['a long number', `sheet: x\nrevision: ${'1'.repeat(1900)}`],
    ['a long tolerance', `tolerance: ${'-1 %'.repeat(450)}`],
    ['blanks in a tolerance', `tolerance: "1 ${' '.repeat(1800)}, at least"`],
    // No clock here: what would take minutes runs into the time limit of every test.
  ])('with %s is answered', (_, text) => {
    check(text);
  });
});
