import * as fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { toExact } from '../../../src/core/quantity/decimal.ts';
import { grams, noMass, ratio, sum, times } from '../../../src/core/quantity/quantity.ts';
import { splitEvenly, windowOfPart } from '../../../src/core/scale/split.ts';
import { cases, seed } from '../../helpers/cases.ts';
import { mass } from '../../helpers/sheet.ts';

const split = (target: string, readability: string, weighings: number): string =>
  splitEvenly(mass(target), mass(readability), weighings).map(toExact).join(' ');

describe('a target in several weighings', () => {
  it('is split into whole divisions, the larger parts first', () => {
    expect(split('25000', '0.1', 3)).toBe('8333.4 8333.3 8333.3');
    expect(split('20000', '0.5', 2)).toBe('10000 10000');
    expect(split('14', '2', 3)).toBe('6 4 4');
  });

  it('adds up exactly, in multiples that differ by one division at most', () => {
    const steps = ['0.001', '0.01', '0.05', '0.1', '0.5', '1', '5', '45359237/32000000'];
    fc.assert(
      fc.property(
        fc.integer({ min: 1, max: 40 }),
        fc.integer({ min: 0, max: 10_000_000 }),
        fc.constantFrom(...steps),
        (weighings, more, step) => {
          const d = mass(step);
          const count = BigInt(weighings + more);
          const parts = splitEvenly(times(d, ratio(count)), d, weighings);
          const whole = parts.map(part => (part.num * d.den) / (part.den * d.num));
          expect(parts).toHaveLength(weighings);
          expect(parts).toEqual(whole.map(each => times(d, ratio(each))));
          expect(whole.reduce((total, each) => total + each, 0n)).toBe(count);
          expect((whole[0] ?? 0n) - (whole.at(-1) ?? 0n)).toBeLessThanOrEqual(1n);
          expect(whole.at(-1)).toBeGreaterThan(0n);
        },
      ),
      { numRuns: cases(500), seed },
    );
  });

  it('throws where no even split exists', () => {
    expect(() => split('10.05', '0.1', 2)).toThrow(RangeError);
    expect(() => split('0.1', '0.1', 2)).toThrow(RangeError);
    expect(() => split('10', '0.1', 0)).toThrow(RangeError);
  });
});

describe('the window of one weighing', () => {
  it('is its part of the room, so that the windows add up to the whole one', () => {
    const target = mass('25000');
    const window = { low: mass('24900'), high: mass('25025') };
    const windows = splitEvenly(target, mass('0.1'), 3).map(part =>
      windowOfPart(part, { target, window, weighings: 3 }),
    );
    expect(windows[0]).toEqual({
      low: grams(ratio(249_002n, 30n)),
      high: grams(ratio(250_252n, 30n)),
    });
    expect(
      sum(
        noMass,
        windows.map(({ low }) => low),
      ),
    ).toEqual(window.low);
    expect(
      sum(
        noMass,
        windows.map(({ high }) => high),
      ),
    ).toEqual(window.high);
  });
});
