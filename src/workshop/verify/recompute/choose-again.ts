/**
 * Which scale weighs a line, in how many weighings, a second time, in the order that DEVELOPERS.md
 * states. Least loads too are worked out here from OIML R 76-1 Table 3 and USP <41>.
 */
import { toExact } from '../../../core/quantity/decimal.ts';
import {
  add,
  dividedBy,
  isLess,
  isMore,
  isPositive,
  type Mass,
  type Ratio,
  ratio,
  ratioOf,
  subtract,
  times,
} from '../../../core/quantity/quantity.ts';
import { type Rounding, toMultiple, toWhole } from '../../../core/quantity/rounding.ts';
import type { AdditionText } from '../../../core/result/record.ts';
import type { ScaleText } from '../../../core/run/event.ts';
import { massFrom } from './exact-text.ts';

/** An exact target with its exact window. */
export interface Wanted {
  readonly exact: Mass;
  readonly low: Mass;
  readonly high: Mass;
}

interface Weighable {
  readonly scale: ScaleText;
  readonly target: Mass;
  readonly low: Mass;
  readonly high: Mass;
  readonly parts: readonly Wanted[];
}

const gram = (thousandths: bigint): Ratio => ratio(thousandths, 1000n);

/** Min in intervals; undefined where the class has no interval of so many grams. */
const fewestIntervals = (accuracyClass: string, e: Ratio): bigint | undefined => {
  const from = (least: bigint): boolean => !isLess(e, gram(least));
  switch (accuracyClass) {
    case 'I':
      return from(1n) ? 100n : undefined;
    case 'II':
      if (from(100n)) return 50n;
      return from(1n) && !isMore(e, gram(50n)) ? 20n : undefined;
    case 'III':
      return from(5000n) || (from(100n) && !isMore(e, gram(2000n))) ? 20n : undefined;
    default:
      return from(5000n) ? 10n : undefined;
  }
};

/** Undefined where nothing of it is known. */
export const leastLoadOf = (scale: ScaleText): Mass | undefined => {
  if (scale.leastLoad !== undefined) return massFrom(scale.leastLoad);
  const d = massFrom(scale.readability);
  const e = scale.interval === undefined ? d : massFrom(scale.interval);
  const intervals =
    scale.accuracyClass && fewestIntervals(scale.accuracyClass, ratio(e.num, e.den));
  if (intervals !== undefined) return times(e, ratio(intervals));
  if (scale.repeatability === undefined) return undefined;
  const [s, floor] = [massFrom(scale.repeatability), times(d, ratio(41n, 100n))];
  return times(isLess(s, floor) ? floor : s, ratio(2000n));
};

export const inDivisions = (mass: Mass, d: Mass, rounding: Rounding): bigint =>
  toWhole(ratioOf<'g'>(mass, d), rounding);

/** So many weighings: whole divisions each, the first ones one more, each with its even part of the room. */
const evenly = (
  { low, high }: Wanted,
  divisions: bigint,
  d: Mass,
  count: bigint,
): readonly Wanted[] => {
  const target = times(d, ratio(divisions));
  const below = dividedBy(subtract(target, low), ratio(count));
  const above = dividedBy(subtract(high, target), ratio(count));
  return Array.from({ length: Number(count) }, (_, index) => {
    const whole = divisions / count + (BigInt(index) < divisions % count ? 1n : 0n);
    const exact = times(d, ratio(whole));
    return { exact, low: subtract(exact, below), high: add(exact, above) };
  });
};

const partsOn = (
  wanted: Wanted,
  divisions: bigint,
  scale: ScaleText,
): readonly Wanted[] | undefined => {
  const [d, capacity] = [massFrom(scale.readability), massFrom(scale.capacity)];
  const fitting = (mass: Mass): boolean => !isMore(toMultiple(mass, d, 'down'), capacity);
  if (fitting(wanted.high)) return [{ ...wanted, exact: times(d, ratio(divisions)) }];
  for (let count = 2n; count <= 20n && count <= divisions; count += 1n) {
    const parts = evenly(wanted, divisions, d, count);
    if (parts.every(({ high }) => fitting(high))) return parts;
  }
  return undefined;
};

const weighableOn = (wanted: Wanted, scale: ScaleText): Weighable | undefined => {
  const d = massFrom(scale.readability);
  const [least, most] = [inDivisions(wanted.low, d, 'up'), inDivisions(wanted.high, d, 'down')];
  if (least > most) return undefined;
  const nearest = inDivisions(wanted.exact, d, 'half-even');
  const divisions = nearest < least ? least : nearest > most ? most : nearest;
  const parts = partsOn(wanted, divisions, scale);
  const grams = (count: bigint): Mass => times(d, ratio(count));
  return parts && { scale, target: grams(divisions), low: grams(least), high: grams(most), parts };
};

/** Zero where nothing is against it, else more the worse it is. */
const faultsOf = ({ scale, parts }: Weighable): number => {
  const d = massFrom(scale.readability);
  const lightest = leastLoadOf(scale);
  const narrower = (count: bigint): boolean =>
    parts.some(({ low, high }) => isLess(subtract(high, low), times(d, ratio(count))));
  const isLight = lightest !== undefined && parts.some(({ exact }) => isLess(exact, lightest));
  return (
    (narrower(2n) ? 8 : 0) + (parts.length > 1 ? 4 : 0) + (isLight ? 2 : 0) + (narrower(4n) ? 1 : 0)
  );
};

const isBetter = (one: Weighable, other: Weighable): boolean => {
  const [faults, others] = [faultsOf(one), faultsOf(other)];
  if (faults !== others) return faults < others;
  if (one.parts.length !== other.parts.length) return one.parts.length < other.parts.length;
  const [d, e] = [massFrom(one.scale.readability), massFrom(other.scale.readability)];
  if (isLess(d, e) || isMore(d, e)) return isLess(d, e);
  return isMore(massFrom(one.scale.capacity), massFrom(other.scale.capacity));
};

type OnScaleText = Pick<AdditionText, 'scale' | 'target' | 'low' | 'high' | 'weighings' | 'parts'>;

/** How a line is weighed; undefined where no scale can. */
export const chooseAgain = (
  wanted: Wanted,
  scales: readonly ScaleText[],
): OnScaleText | undefined => {
  let best: Weighable | undefined;
  for (const scale of scales) {
    const next = isPositive(massFrom(scale.capacity)) ? weighableOn(wanted, scale) : undefined;
    if (next !== undefined && (best === undefined || isBetter(next, best))) best = next;
  }
  if (best === undefined) return undefined;
  const { parts } = best;
  return {
    scale: best.scale.name,
    target: toExact(best.target),
    low: toExact(best.low),
    high: toExact(best.high),
    weighings: parts.length,
    ...(parts.length > 1 ? { parts: parts.map(partText) } : {}),
  };
};

const partText = ({ exact, low, high }: Wanted) => ({
  target: toExact(exact),
  windowLow: toExact(low),
  windowHigh: toExact(high),
});
