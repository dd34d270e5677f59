/** Rounding against the worked examples of standards, and against decimal.js. */
import { Decimal } from 'decimal.js';
import * as fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { toDecimal } from '../../src/core/quantity/decimal.ts';
import { ratio } from '../../src/core/quantity/quantity.ts';
import { cases, seed } from '../helpers/cases.ts';
import { number } from '../helpers/sheet.ts';

describe('half to even', () => {
  // NIST SP 811 (2008) B.7.1, its own examples.
  it.each([
    ['6.9749515', 2, '6.97'],
    ['6.9749515', 4, '6.9750'],
    ['6.9749515', 6, '6.974952'],
    ['6.9749505', 6, '6.974950'],
  ])('takes %s to %i decimals as SP 811 does', (value, places, expected) => {
    expect(toDecimal(number(value), places, 'half-even')).toBe(expected);
  });

  // ASTM E29 section 6, rounding method.
  it.each([
    ['2.5', 0, '2'],
    ['3.5', 0, '4'],
    ['0.125', 2, '0.12'],
    ['0.135', 2, '0.14'],
  ])('takes %s to %i decimals as ASTM E29 does', (value, places, expected) => {
    expect(toDecimal(number(value), places, 'half-even')).toBe(expected);
  });

  // Numerals on which binary floats go wrong: (2.675).toFixed(2) is 2.67, (1.005).toFixed(2) 1.00.
  it.each([
    ['2.675', 2, '2.68'],
    ['1.15', 1, '1.2'],
    ['0.285', 2, '0.28'],
    ['1.005', 2, '1.00'],
    ['1.45', 1, '1.4'],
  ])('judges the numeral %s, not its nearest float', (value, places, expected) => {
    expect(toDecimal(number(value), places, 'half-even')).toBe(expected);
  });

  it('equals decimal.js for decimals of any length', () => {
    const Long = Decimal.clone({ precision: 80, rounding: Decimal.ROUND_HALF_EVEN });
    fc.assert(
      fc.property(
        fc.bigInt({ min: -(10n ** 18n), max: 10n ** 18n }),
        fc.integer({ min: 0, max: 9 }),
        fc.integer({ min: 0, max: 6 }),
        (digits, decimals, places) => {
          const theirs = new Long(`${digits}e-${decimals}`).toFixed(places);
          const ours = toDecimal(ratio(digits, 10n ** BigInt(decimals)), places, 'half-even');
          expect(ours).toBe(theirs.replace(/^-(0(?:\.0+)?)$/, '$1'));
        },
      ),
      { numRuns: cases(2000), seed },
    );
  });

  it('equals decimal.js for quotients, at four decimals', () => {
    // 80 digits are enough: a quotient of such numbers is a tie only where it ends.
    const Long = Decimal.clone({ precision: 80, rounding: Decimal.ROUND_HALF_EVEN });
    fc.assert(
      fc.property(
        fc.bigInt({ min: 0n, max: 10n ** 9n }),
        fc.bigInt({ min: 1n, max: 100_000n }),
        (num, den) => {
          const theirs = new Long(String(num)).div(String(den)).toFixed(4);
          expect(toDecimal(ratio(num, den), 4, 'half-even')).toBe(theirs);
        },
      ),
      { numRuns: cases(2000), seed },
    );
  });
});
