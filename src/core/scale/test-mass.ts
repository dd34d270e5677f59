import { grams, isEqual, type Mass, ratio } from '../quantity/quantity.ts';

/** Classes of test masses, finest first. */
export const testMassClasses = ['F1', 'F2', 'M1', 'M2'] as const;
export type TestMassClass = (typeof testMassClasses)[number];

/** Nominal grams, then the error allowed either way in hundredths of a milligram: F1, F2, M1, M2. */
type Row = readonly [bigint, bigint, bigint, bigint, bigint];

// OIML R 111-1 (2004) Table 1.
const table1: readonly Row[] = [
  [1n, 10n, 30n, 100n, 300n],
  [2n, 12n, 40n, 120n, 400n],
  [5n, 16n, 50n, 160n, 500n],
  [10n, 20n, 60n, 200n, 600n],
  [20n, 25n, 80n, 250n, 800n],
  [50n, 30n, 100n, 300n, 1000n],
  [100n, 50n, 160n, 500n, 1600n],
  [200n, 100n, 300n, 1000n, 3000n],
  [500n, 250n, 800n, 2500n, 8000n],
  [1000n, 500n, 1600n, 5000n, 16_000n],
  [2000n, 1000n, 3000n, 10_000n, 30_000n],
  [5000n, 2500n, 8000n, 25_000n, 80_000n],
];

/** The error that R 111-1 allows a test mass either way; undefined for a nominal mass that is not in its table. */
export const testMassLimit = (massClass: TestMassClass, nominal: Mass): Mass | undefined => {
  const row = table1.find(([whole]) => isEqual(grams(ratio(whole)), nominal));
  if (row === undefined) return undefined;
  const [, f1, f2, m1, m2] = row;
  const hundredths = { F1: f1, F2: f2, M1: m1, M2: m2 }[massClass];
  return grams(ratio(hundredths, 100_000n));
};
