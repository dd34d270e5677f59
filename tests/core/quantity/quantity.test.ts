import * as fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  absolute,
  add,
  compare,
  dividedBy,
  larger,
  negate,
  ratio,
  ratioOf,
  smaller,
  subtract,
  sum,
  times,
  zero,
} from '../../../src/core/quantity/quantity.ts';
import { cases, seed } from '../../helpers/cases.ts';

const whole = fc.bigInt({ min: -(10n ** 12n), max: 10n ** 12n });
const under = fc.bigInt({ min: 1n, max: 10n ** 6n });
const anyRatio = fc.tuple(whole, under).map(([num, den]) => ratio(num, den));
const runs = { numRuns: cases(300), seed };

const gcd = (a: bigint, b: bigint): bigint => (b === 0n ? a : gcd(b, a % b));

describe('a quantity', () => {
  it('stands in lowest terms over a positive denominator', () => {
    fc.assert(
      fc.property(whole, under, fc.boolean(), (num, den, flipped) => {
        const value = flipped ? ratio(-num, -den) : ratio(num, den);
        expect(value.den > 0n).toBe(true);
        expect(gcd(value.num < 0n ? -value.num : value.num, value.den)).toBe(1n);
        expect(value.num * den).toBe(num * value.den);
      }),
      runs,
    );
  });

  it('adds in any order and takes away again', () => {
    fc.assert(
      fc.property(anyRatio, anyRatio, anyRatio, (a, b, c) => {
        expect(add(a, b)).toEqual(add(b, a));
        expect(add(add(a, b), c)).toEqual(add(a, add(b, c)));
        expect(subtract(add(a, b), b)).toEqual(a);
        expect(sum(zero, [a, b, c])).toEqual(add(add(a, b), c));
      }),
      runs,
    );
  });

  it('divides what it multiplied, exactly', () => {
    fc.assert(
      fc.property(anyRatio, anyRatio, (a, b) => {
        fc.pre(b.num !== 0n);
        expect(dividedBy(times(a, b), b)).toEqual(a);
        expect(times(b, ratioOf(a, b))).toEqual(a);
      }),
      runs,
    );
  });

  it('compares as its difference has a sign', () => {
    fc.assert(
      fc.property(anyRatio, anyRatio, (a, b) => {
        const { num } = subtract(a, b);
        expect(compare(a, b)).toBe(num < 0n ? -1 : num > 0n ? 1 : 0);
        expect(compare(smaller(a, b), larger(a, b))).toBeLessThanOrEqual(0);
        expect(add(smaller(a, b), larger(a, b))).toEqual(add(a, b));
        expect(absolute(negate(a))).toEqual(absolute(a));
      }),
      runs,
    );
  });

  it('refuses a denominator of zero', () => {
    expect(() => ratio(1n, 0n)).toThrow(RangeError);
    expect(() => dividedBy(ratio(1n), zero)).toThrow(RangeError);
    expect(() => ratioOf(ratio(1n), zero)).toThrow(RangeError);
  });
});
