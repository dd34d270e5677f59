import * as fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { ratio } from '../../../src/core/quantity/quantity.ts';
import { toMultiple, toWhole } from '../../../src/core/quantity/rounding.ts';
import { cases, seed } from '../../helpers/cases.ts';
import { number } from '../../helpers/sheet.ts';

describe('toWhole', () => {
  it.each([
    ['2.5', 2n, 3n, 2n],
    ['3.5', 3n, 4n, 4n],
    ['-2.5', -3n, -2n, -2n],
    ['-3.5', -4n, -3n, -4n],
    ['2.4', 2n, 3n, 2n],
    ['-0.4', -1n, 0n, 0n],
    ['7', 7n, 7n, 7n],
    ['-7', -7n, -7n, -7n],
  ])('rounds %s down, up and to the nearest', (text, down, up, nearest) => {
    expect(toWhole(number(text), 'down')).toBe(down);
    expect(toWhole(number(text), 'up')).toBe(up);
    expect(toWhole(number(text), 'half-even')).toBe(nearest);
  });

  it('never moves further than it says', () => {
    fc.assert(
      fc.property(
        fc.bigInt({ min: -(10n ** 9n), max: 10n ** 9n }),
        fc.bigInt({ min: 1n, max: 1000n }),
        (num, den) => {
          const value = ratio(num, den);
          const off = (whole: bigint) => whole * value.den - value.num;
          expect(off(toWhole(value, 'down')) <= 0n).toBe(true);
          expect(off(toWhole(value, 'down')) > -value.den).toBe(true);
          expect(off(toWhole(value, 'up')) >= 0n).toBe(true);
          expect(off(toWhole(value, 'up')) < value.den).toBe(true);
          const nearest = off(toWhole(value, 'half-even'));
          expect(2n * (nearest < 0n ? -nearest : nearest) <= value.den).toBe(true);
        },
      ),
      { numRuns: cases(500), seed },
    );
  });
});

describe('toMultiple', () => {
  it.each([
    ['12.34', '0.05', '12.35'],
    ['12.325', '0.05', '12.3'],
    ['12.375', '0.05', '12.4'],
    ['7', '2', '8'],
    ['5', '2', '4'],
    ['-7', '2', '-8'],
  ])('takes %s to a multiple of %s', (value, step, expected) => {
    expect(toMultiple(number(value), number(step), 'half-even')).toEqual(number(expected));
  });
});
