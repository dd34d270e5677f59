/** Classes of scales as OIML R 76-1 (2006) states them: Table 3 for their limits, Table 6 for their errors. */

import type { AccuracyClass, Scale } from '../plan/plan.ts';
import {
  absolute,
  grams,
  isLess,
  isMore,
  type Mass,
  ratio,
  ratioOf,
  times,
} from '../quantity/quantity.ts';

export const accuracyClasses = [
  'I',
  'II',
  'III',
  'IIII',
] as const satisfies readonly AccuracyClass[];

/** The verification interval e, or the readability where none is known. */
export const intervalOf = ({ interval, readability }: Scale): Mass => interval ?? readability;

/** One row of Table 3; e in milligrams, the rest in verification intervals. */
interface Row {
  readonly finest: bigint;
  readonly coarsest?: bigint;
  readonly fewest: bigint;
  readonly most?: bigint;
  /** Min, the lower limit of the capacity. */
  readonly least: bigint;
}

const table3: Readonly<Record<AccuracyClass, readonly Row[]>> = {
  I: [{ finest: 1n, fewest: 50_000n, least: 100n }],
  II: [
    { finest: 1n, coarsest: 50n, fewest: 100n, most: 100_000n, least: 20n },
    { finest: 100n, fewest: 5000n, most: 100_000n, least: 50n },
  ],
  III: [
    { finest: 100n, coarsest: 2000n, fewest: 100n, most: 10_000n, least: 20n },
    { finest: 5000n, fewest: 500n, most: 10_000n, least: 20n },
  ],
  IIII: [{ finest: 5000n, fewest: 100n, most: 1000n, least: 10n }],
};

const milligrams = (count: bigint): Mass => grams(ratio(count, 1000n));

const rowOf = (accuracyClass: AccuracyClass, e: Mass): Row | undefined =>
  table3[accuracyClass].find(
    ({ finest, coarsest }) =>
      !isLess(e, milligrams(finest)) &&
      (coarsest === undefined || !isMore(e, milligrams(coarsest))),
  );

/** Min of R 76-1 Table 3: the load under which a scale of that class is not to be used. Undefined where the class has no such e. */
export const minimumCapacity = (accuracyClass: AccuracyClass, e: Mass): Mass | undefined => {
  const row = rowOf(accuracyClass, e);
  return row && times(e, ratio(row.least));
};

// The greatest loads, in e, of the first and the second band of Table 6.
const table6: Readonly<Record<AccuracyClass, readonly [bigint, bigint]>> = {
  I: [50_000n, 200_000n],
  II: [5000n, 20_000n],
  III: [500n, 2000n],
  IIII: [50n, 200n],
};

/** The error allowed either way at a load on initial verification (R 76-1 Table 6); the edge of a band belongs to it. */
export const initialLimit = (accuracyClass: AccuracyClass, e: Mass, load: Mass): Mass => {
  const intervals = ratioOf<'g'>(absolute(load), e);
  const [first, second] = table6[accuracyClass];
  if (!isMore(intervals, ratio(first))) return times(e, ratio(1n, 2n));
  return isMore(intervals, ratio(second)) ? times(e, ratio(3n, 2n)) : e;
};

/** The error allowed either way while the scale is in use: twice the initial one (R 76-1 3.5.2). */
export const inServiceLimit = (accuracyClass: AccuracyClass, e: Mass, load: Mass): Mass =>
  times(initialLimit(accuracyClass, e, load), ratio(2n));

export interface ClassProblem {
  readonly message: string;
  readonly instead: string;
}

const plate = 'Look at the plate of the scale: its class stands in an oval, e beside it.';

/** Whether class, e and capacity can belong to one scale (R 76-1 Table 3); undefined where they can, or no class is known. */
export const checkClass = (facts: Scale): ClassProblem | undefined => {
  const { accuracyClass, capacity, readability } = facts;
  const e = intervalOf(facts);
  if (isLess(e, readability)) {
    return { message: 'e cannot be finer than what the scale shows.', instead: plate };
  }
  if (accuracyClass === undefined) return undefined;
  const row = rowOf(accuracyClass, e);
  if (row === undefined) {
    return { message: `Class ${accuracyClass} has no scale with this e.`, instead: plate };
  }
  const intervals = ratioOf<'g'>(capacity, e);
  const { fewest, most } = row;
  if (isLess(intervals, ratio(fewest))) {
    return {
      message: `Class ${accuracyClass} with this e has a capacity of ${fewest} e at least.`,
      instead: plate,
    };
  }
  return most !== undefined && isMore(intervals, ratio(most))
    ? { message: `Class ${accuracyClass} has a capacity of ${most} e at most.`, instead: plate }
    : undefined;
};
