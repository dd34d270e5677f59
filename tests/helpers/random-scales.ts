import * as fc from 'fast-check';
import type { Scale, SizeWish } from '../../src/core/plan/plan.ts';
import { ratio } from '../../src/core/quantity/quantity.ts';
import type { Sheet } from '../../src/core/sheet/sheet.ts';
import { massOf, type Side, toleranceOf } from './as-program.ts';
import type { Fraction } from './fraction.ts';
import { adding, phaseOf, sheetOf } from './sheet.ts';

/** Invented by chance: what a sheet of one bowl says, and the scales it meets, all in plain fractions of a gram. */
export interface LineGiven {
  readonly amount: Fraction;
  readonly under: Side;
  readonly over: Side;
  readonly floor: Fraction | undefined;
}

export interface ScaleGiven {
  readonly d: Fraction;
  readonly capacity: Fraction;
  readonly e: Fraction | undefined;
  readonly accuracyClass: 'I' | 'II' | 'III' | 'IIII' | undefined;
  readonly least: Fraction | undefined;
  readonly s: Fraction | undefined;
}

export interface SceneGiven {
  readonly lines: readonly LineGiven[];
  readonly scales: readonly ScaleGiven[];
  readonly factor: Fraction;
  readonly tare: Fraction;
}

const whole = (min: bigint, max: bigint) => fc.bigInt({ min, max });
const power = (exponent: number): Fraction =>
  exponent < 0 ? [1n, 10n ** BigInt(-exponent)] : [10n ** BigInt(exponent), 1n];
const times = (a: Fraction, count: bigint): Fraction => [a[0] * count, a[1]];
const perhaps = <T>(arbitrary: fc.Arbitrary<T>) => fc.option(arbitrary, { nil: undefined });

// Two significant digits or four, from a hundredth of a gram to 99 kg.
const amount: fc.Arbitrary<Fraction> = fc
  .tuple(whole(1n, 9999n), fc.integer({ min: -3, max: 1 }))
  .map(([digits, exponent]) => times(power(exponent), digits));

const side: fc.Arbitrary<Side> = fc.oneof(
  {
    weight: 5,
    arbitrary: whole(1n, 300n).map(n => ({ kind: 'share', value: [n, 10_000n] }) as const),
  },
  {
    weight: 3,
    arbitrary: whole(1n, 800n).map(n => ({ kind: 'mass', value: [n, 1000n] }) as const),
  },
  { weight: 1, arbitrary: fc.constant<Side>({ kind: 'mass', value: [0n, 1n] }) },
);

const line: fc.Arbitrary<LineGiven> = fc.record({
  amount,
  under: side,
  over: side,
  floor: perhaps(whole(1n, 200n).map((n): Fraction => [n, 1000n])),
});

const scale: fc.Arbitrary<ScaleGiven> = fc
  .record({
    step: fc.constantFrom(1n, 2n, 5n),
    exponent: fc.integer({ min: -3, max: 1 }),
    divisions: fc.constantFrom(
      500n,
      1000n,
      2000n,
      3000n,
      6000n,
      15_000n,
      20_000n,
      60_000n,
      100_000n,
    ),
    interval: perhaps(fc.constantFrom(1n, 2n, 5n, 10n, 20n)),
    accuracyClass: perhaps(fc.constantFrom('I', 'II', 'III', 'IIII')),
    least: perhaps(whole(1n, 300n)),
    s: perhaps(whole(0n, 30n)),
  })
  .map(given => {
    const d = times(power(given.exponent), given.step);
    return {
      d,
      capacity: times(d, given.divisions),
      e: given.interval === undefined ? undefined : times(d, given.interval),
      accuracyClass: given.accuracyClass,
      least: given.least === undefined ? undefined : times(d, given.least),
      s: given.s === undefined ? undefined : ([d[0] * given.s, d[1] * 10n] as const),
    };
  });

export const anyScene: fc.Arbitrary<SceneGiven> = fc.record({
  lines: fc.array(line, { minLength: 1, maxLength: 4 }),
  scales: fc.array(scale, { minLength: 1, maxLength: 4 }),
  factor: fc.tuple(whole(1n, 60n), fc.constantFrom(1n, 3n, 7n, 10n, 24n)),
  tare: fc.constantFrom<Fraction>([0n, 1n], [240n, 1n], [812n, 1n]),
});

/** The sheet, the size and the scales that say so. */
export const programmeOf = ({
  lines,
  scales,
  factor,
  tare,
}: SceneGiven): {
  readonly sheet: Sheet;
  readonly wish: SizeWish;
  readonly scales: readonly Scale[];
} => ({
  sheet: sheetOf(
    [
      phaseOf(
        'Bowl',
        lines.map((given, at) => ({
          ...adding('abcd'.charAt(at), '1g', { tolerance: toleranceOf(given) }),
          amount: { kind: 'mass' as const, mass: massOf(given.amount), typed: '' },
        })),
        { vessel: { name: 'bowl', tare: massOf(tare) } },
      ),
    ],
    { basis: 'absolute' },
  ),
  wish: { by: 'factor', factor: ratio(factor[0], factor[1]) },
  scales: scales.map(({ d, capacity, e, accuracyClass, least, s }, at) => ({
    name: `scale ${at + 1}`,
    capacity: massOf(capacity),
    readability: massOf(d),
    unit: 'g',
    ...(e && { interval: massOf(e) }),
    ...(accuracyClass && { accuracyClass }),
    ...(least && { leastLoad: massOf(least) }),
    ...(s && { repeatability: massOf(s) }),
  })),
});
