import * as fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  placesOf,
  readNumber,
  toDecimal,
  toExact,
  toFraction,
} from '../../../src/core/quantity/decimal.ts';
import { ratio } from '../../../src/core/quantity/quantity.ts';
import { cases, seed } from '../../helpers/cases.ts';
import { number } from '../../helpers/sheet.ts';

describe('readNumber', () => {
  it.each([
    ['12', 12n, 1n],
    ['12.50', 25n, 2n],
    ['1/2', 1n, 2n],
    ['1 1/2', 3n, 2n],
    ['-2', -2n, 1n],
    ['−1 1/2', -3n, 2n],
    ['0.000', 0n, 1n],
    [' 7 ', 7n, 1n],
  ])('reads %j', (text, num, den) => {
    expect(readNumber(text)).toEqual(ratio(num, den));
  });

  it.each(['', '1,5', '.5', '5.', '1e3', '0x10', '1_000', 'NaN', '1/0', '1 2', '1 2.5', '1/2/3'])(
    'refuses %j',
    text => {
      expect(readNumber(text)).toBeUndefined();
    },
  );

  it('refuses a number beyond two hundred digits at once', () => {
    expect(readNumber('1'.repeat(201))).toBeUndefined();
    expect(readNumber('1'.repeat(1_000_000))).toBeUndefined();
  });
});

describe('writing a number', () => {
  it.each([
    ['2.5', '2.5'],
    ['2.50', '2.5'],
    ['3', '3'],
    ['-0.125', '-0.125'],
    ['171000/49', '171000/49'],
    ['1/3', '1/3'],
    ['0', '0'],
  ])('writes %s exactly as %s', (text, expected) => {
    expect(toExact(number(text))).toBe(expected);
  });

  it('writes a stretch as a fraction', () => {
    expect(toFraction(number('104/101'))).toBe('104/101');
    expect(toFraction(number('2'))).toBe('2/1');
  });

  it('rounds to the decimals asked for, as named', () => {
    expect(toDecimal(number('2.45'), 1, 'half-even')).toBe('2.4');
    expect(toDecimal(number('2.45'), 1, 'up')).toBe('2.5');
    expect(toDecimal(number('-2.45'), 1, 'down')).toBe('-2.5');
    expect(toDecimal(number('-0.04'), 1, 'half-even')).toBe('0.0');
    expect(toDecimal(number('0.05'), 3, 'half-even')).toBe('0.050');
    expect(toDecimal(number('7'), 0, 'half-even')).toBe('7');
  });

  it.each([
    ['0.1', 1],
    ['0.05', 2],
    ['2', 0],
    ['10', 0],
    ['1/3', 1],
    ['1/1024', 10],
    ['1/3000', 4],
  ])('counts the decimals of %s', (text, places) => {
    expect(placesOf(number(text))).toBe(places);
  });

  it('reads back what it wrote', () => {
    fc.assert(
      fc.property(
        fc.bigInt({ min: -(10n ** 15n), max: 10n ** 15n }),
        fc.bigInt({ min: 1n, max: 10n ** 6n }),
        (num, den) => {
          expect(readNumber(toExact(ratio(num, den)))).toEqual(ratio(num, den));
        },
      ),
      { numRuns: cases(500), seed },
    );
  });
});
