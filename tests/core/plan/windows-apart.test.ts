/**
 * Windows, targets and verdicts against a second arithmetic and a search that tries every reading
 * inside the window. All cases are invented by chance.
 */
import * as fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { onScale, verdictOf, windowOf } from '../../../src/core/plan/window.ts';
import { massOf, type Side, toleranceOf } from '../../helpers/as-program.ts';
import { cases, seed } from '../../helpers/cases.ts';
import { by, type Fraction, minus, order, over, plus, wholeBelow } from '../../helpers/fraction.ts';

interface Case {
  readonly exact: Fraction;
  readonly under: Side;
  readonly over: Side;
  readonly floor: Fraction | undefined;
  readonly d: Fraction;
}

const whole = (min: bigint, max: bigint) => fc.bigInt({ min, max });

// One side in four is zero: a window with one side, or none.
const side: fc.Arbitrary<Side> = fc.oneof(
  whole(1n, 500n).map((value): Side => ({ kind: 'share', value: [value, 10_000n] })),
  whole(1n, 3000n).map((value): Side => ({ kind: 'mass', value: [value, 1000n] })),
  whole(1n, 9n).map((value): Side => ({ kind: 'mass', value: [value, 7n] })),
  fc.constantFrom<Side>({ kind: 'mass', value: [0n, 1n] }, { kind: 'share', value: [0n, 1n] }),
);

const anyCase: fc.Arbitrary<Case> = fc.record({
  exact: fc.tuple(whole(1n, 3_000_000n), fc.constantFrom(1n, 2n, 3n, 7n, 49n, 98n, 1000n, 4096n)),
  under: side,
  over: side,
  floor: fc.option(
    whole(1n, 400n).map((value): Fraction => [value, 1000n]),
    { nil: undefined },
  ),
  d: fc.tuple(fc.constantFrom(1n, 2n, 5n), fc.constantFrom(1n, 10n, 100n, 1000n)),
});

const largerOf = (a: Fraction, b: Fraction): Fraction => (order(a, b) < 0n ? b : a);

const sideApart = ({ kind, value }: Side, { exact, floor }: Case): Fraction => {
  const plain = kind === 'share' ? by(value, exact) : value;
  return plain[0] === 0n || floor === undefined ? plain : largerOf(plain, floor);
};

const windowApart = (given: Case): readonly [Fraction, Fraction] => [
  minus(given.exact, sideApart(given.under, given)),
  plus(given.exact, sideApart(given.over, given)),
];

// A window may hold a million divisions; then steps ten times as coarse are tried instead.
const coarseEnough = (d: Fraction, low: Fraction, high: Fraction): Fraction =>
  wholeBelow(over(minus(high, low), d)) > 200n ? coarseEnough(by(d, [10n, 1n]), low, high) : d;

/** Every multiple of d inside the window, as how many d it is. */
const readingsInside = (d: Fraction, low: Fraction, high: Fraction): bigint[] => {
  const found: bigint[] = [];
  for (let k = wholeBelow(over(low, d)) - 1n; order(by([k, 1n], d), high) <= 0n; k += 1n) {
    if (order(by([k, 1n], d), low) >= 0n) found.push(k);
  }
  return found;
};

const distance = (k: bigint, d: Fraction, exact: Fraction): Fraction => {
  const difference = minus(by([k, 1n], d), exact);
  return difference[0] < 0n ? [-difference[0], difference[1]] : difference;
};

const nearest = (readings: readonly bigint[], d: Fraction, exact: Fraction): bigint | undefined => {
  let best: bigint | undefined;
  for (const k of readings) {
    const closer =
      best === undefined ? -1n : order(distance(k, d, exact), distance(best, d, exact));
    if (closer < 0n || (closer === 0n && k % 2n === 0n)) best = k;
  }
  return best;
};

const verdictApart = (reading: Fraction, low: Fraction, high: Fraction) =>
  order(reading, low) < 0n ? 'under' : order(reading, high) > 0n ? 'over' : 'in';

const check = (given: Case): void => {
  const [low, high] = windowApart(given);
  const exact = massOf(given.exact);
  const window = windowOf(toleranceOf(given), exact);
  expect(window).toEqual({ low: massOf(low), high: massOf(high) });

  const d = coarseEnough(given.d, low, high);
  const scale = {
    name: 'any',
    unit: 'g',
    capacity: massOf([10n ** 9n, 1n]),
    readability: massOf(d),
  };
  const readings = readingsInside(d, low, high);
  const target = nearest(readings, d, given.exact);
  const multiple = (k: bigint | undefined) =>
    k === undefined ? undefined : massOf(by([k, 1n], d));
  const on = onScale(exact, window, scale);
  expect([on.low, on.target, on.high]).toEqual(
    [readings[0], target, readings.at(-1)].map(multiple),
  );

  const first = readings[0] ?? wholeBelow(over(low, d)) + 1n;
  const last = readings.at(-1) ?? first - 1n;
  for (const k of [first - 1n, first, last, last + 1n]) {
    const reading = by([k, 1n], d);
    expect(verdictOf(massOf(reading), window)).toBe(verdictApart(reading, low, high));
  }
  expect(verdictOf(massOf(by([first - 1n, 1n], d)), window)).toBe('under');
  expect(verdictOf(massOf(by([last + 1n, 1n], d)), window)).toBe('over');
  expect(verdictOf(window.low, window)).toBe('in');
  expect(verdictOf(window.high, window)).toBe('in');
};

describe('windows, targets and verdicts', () => {
  it('equal what a second arithmetic finds by trying every reading', () => {
    fc.assert(fc.property(anyCase, check), { numRuns: cases(2000), seed });
  });
});
