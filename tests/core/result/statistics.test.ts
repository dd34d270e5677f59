import { existsSync, readFileSync } from 'node:fs';
import { Decimal } from 'decimal.js';
import * as fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { toDecimal } from '../../../src/core/quantity/decimal.ts';
import type { Mass } from '../../../src/core/quantity/quantity.ts';
import { meanOf, percentText, rootText, spreadText } from '../../../src/core/result/statistics.ts';
import { cases, seed } from '../../helpers/cases.ts';
import { mass, number } from '../../helpers/sheet.ts';

// NIST Statistical Reference Datasets, univariate summary statistics: the certified values stand in
// the head of each file, with 15 significant digits (NumAcc: exact by construction). The spread is
// given here as NIST gives it, and rounded to the four decimals of a record.
const certified = [
  ['NumAcc1', 3, '10000002', '1', '1.0000'],
  ['NumAcc2', 1001, '1.2', '0.1', '0.1000'],
  ['NumAcc3', 1001, '1000000.2', '0.1', '0.1000'],
  ['NumAcc4', 1001, '10000000.2', '0.1', '0.1000'],
  ['Lottery', 218, '518.958715596330', '291.699727470969', '291.6997'],
  ['Lew', 200, '-177.435', '277.332168044316', '277.3322'],
  ['Mavro', 50, '2.001856', '0.000429123454003053', '0.0004'],
  ['Michelso', 100, '299.8524', '0.0790105478190518', '0.0790'],
] as const;

const fileOf = (name: string): URL =>
  new URL(`../../../../shared/reference/data/strd/${name}.dat`, import.meta.url);

/** The numbers below the line of dashes. */
const massesOf = (name: string): readonly Mass[] => {
  const text = readFileSync(fileOf(name), 'ascii');
  const [, data = ''] = text.split(/^\s*-{5,}\s*$/m);
  return data.split(/\s+/).filter(Boolean).map(mass);
};

const isThere = certified.every(([name]) => existsSync(fileOf(name)));
if (!isThere) console.warn('skipped: the NIST StRD files are not beside this checkout');

describe.skipIf(!isThere)('NIST StRD', () => {
  test.each(certified)('%s: mean and spread of %i values', (name, count, mean, _, spread) => {
    const masses = massesOf(name);
    expect(masses).toHaveLength(count);
    const places = mean.split('.')[1]?.length ?? 0;
    expect(toDecimal(meanOf(masses), places, 'half-even')).toBe(mean);
    expect(spreadText(masses)).toBe(spread);
  });

  test.each(certified)('%s: the spread in all certified digits', (name, _count, _mean, spread) => {
    // Scaled so that the four decimals of the text hold every digit of the certified value.
    const places = spread.split('.')[1]?.length ?? 0;
    const up = new Decimal(10).pow(Math.max(places - 4, 0));
    const masses = massesOf(name).map(each =>
      mass(new Decimal(each.num.toString()).div(each.den.toString()).mul(up).toFixed()),
    );
    expect(new Decimal(spreadText(masses)).div(up).toFixed(places)).toBe(
      new Decimal(spread).toFixed(places),
    );
  });
});

test('the spread of two equal weights is nothing', () => {
  expect(spreadText([mass('98.4'), mass('98.4')])).toBe('0.0000');
});

test('the root is rounded half to even', () => {
  // Exact half-ways: 0.00005² and 0.00015².
  expect(rootText(number('0.0000000025'), 4)).toBe('0.0000');
  expect(rootText(number('0.0000000225'), 4)).toBe('0.0002');
  // A hair beside the half-way, on either side.
  expect(rootText(number('0.00000000250000000000000001'), 4)).toBe('0.0001');
  expect(rootText(number('0.00000002249999999999999999'), 4)).toBe('0.0001');
});

test('roots agree with decimal.js', () => {
  const Exact = Decimal.clone({ precision: 120, rounding: Decimal.ROUND_HALF_EVEN });
  const whole = fc.bigInt({ min: 0n, max: 10n ** 30n });
  const part = fc.bigInt({ min: 1n, max: 10n ** 12n });
  fc.assert(
    fc.property(whole, part, fc.integer({ min: 0, max: 8 }), (num, den, places) => {
      const root = new Exact(num.toString()).div(den.toString()).sqrt();
      expect(rootText(number(`${num}/${den}`), places)).toBe(root.toFixed(places));
    }),
    { numRuns: cases(500), seed },
  );
});

test('squares of numbers half-way between two decimals agree with decimal.js', () => {
  fc.assert(
    fc.property(fc.bigInt({ min: 0n, max: 10n ** 12n }), fc.constantFrom(-1n, 0n, 1n), (n, off) => {
      // (n + 1/2)², at no decimals, and a billionth of a billionth off it.
      const half = 2n * n + 1n;
      const num = half * half * 10n ** 30n + off;
      const up = off > 0n || (off === 0n && n % 2n === 1n);
      expect(rootText(number(`${num}/${4n * 10n ** 30n}`), 0)).toBe(String(up ? n + 1n : n));
    }),
    { numRuns: cases(500), seed },
  );
});

test('a share is shown in per cent, ties to even', () => {
  expect(percentText(number('0.30208'), 2)).toBe('30.21');
  expect(percentText(number('0.00125'), 2)).toBe('0.12');
  expect(percentText(number('1/3'), 4)).toBe('33.3333');
});
