/**
 * How sure a weighed mass is, by the GUM (JCGM 100:2008). Variances are exact, in square grams; a root
 * is taken only for show.
 */
import type { Scale, Window } from '../plan/plan.ts';
import {
  add,
  dividedBy,
  isMore,
  type Mass,
  negate,
  noMass,
  one,
  type Ratio,
  ratio,
  ratioOf,
  subtract,
  sum,
  times,
  zero,
} from '../quantity/quantity.ts';
import { rootText } from '../result/statistics.ts';
import { inServiceLimit, intervalOf } from './accuracy-class.ts';

const square = ({ num, den }: { readonly num: bigint; readonly den: bigint }): Ratio =>
  ratio(num * num, den * den);

/** A net mass with what makes it uncertain. */
export interface Weighed {
  readonly mass: Mass;
  /** The name of its scale: what the scale as such is off is shared by all that was weighed on it. */
  readonly scale: string;
  /** Of the rounding of the display, at the tare and at the gross: d²/12 each (GUM F.2.2.1). */
  readonly ofReadability: Ratio;
  /** s², where it was measured. */
  readonly ofRepeatability: Ratio;
  /** What the scale may be off in service at this net mass (R 76-1). Absent where its class is not known: what is left is then a lower bound. */
  readonly limit?: Mass;
}

export const weighedOn = (scale: Scale, mass: Mass): Weighed => {
  const { accuracyClass, readability, repeatability = noMass } = scale;
  return {
    mass,
    scale: scale.name,
    ofReadability: times(square(readability), ratio(2n, 12n)),
    ofRepeatability: square(repeatability),
    ...(accuracyClass && { limit: inServiceLimit(accuracyClass, intervalOf(scale), mass) }),
  };
};

/** A weighed mass, and how much a result changes with it. */
interface Input {
  readonly weighed: Weighed;
  readonly sensitivity: Ratio;
}

// Independent errors add as squares (GUM 5.1.2). The limit of one scale is one error shared by all its
// masses, so it adds before it is squared (GUM 5.2.2, r = 1); it is rectangular, a²/3 (GUM 4.3.7).
const combine = (inputs: readonly Input[]): Ratio => {
  const shared = new Map<string, Ratio>();
  let total = zero;
  for (const { weighed, sensitivity } of inputs) {
    const { scale, limit = noMass, ofReadability, ofRepeatability } = weighed;
    total = add(total, times(add(ofReadability, ofRepeatability), square(sensitivity)));
    const off = times(sensitivity, ratio(limit.num, limit.den));
    shared.set(scale, add(shared.get(scale) ?? zero, off));
  }
  return [...shared.values()].reduce(
    (sofar, off) => add(sofar, dividedBy(square(off), ratio(3n))),
    total,
  );
};

const massOfAll = (all: readonly Weighed[]): Mass =>
  sum(
    noMass,
    all.map(({ mass }) => mass),
  );

/** Variance of the sum of weighed masses, in square grams; of a single one too. */
export const totalVariance = (all: readonly Weighed[]): Ratio =>
  combine(all.map(weighed => ({ weighed, sensitivity: one })));

/**
 * Variance of the share that some weighed masses have in the sum of them and the others. Throws a
 * RangeError where that sum is zero.
 */
export const shareVariance = (part: readonly Weighed[], others: readonly Weighed[]): Ratio => {
  const total = massOfAll([...part, ...others]);
  const share = ratioOf<'g'>(massOfAll(part), total);
  const perGram = dividedBy(one, ratio(total.num, total.den));
  const inside = times(subtract(one, share), perGram);
  const outside = times(negate(share), perGram);
  return combine([
    ...part.map(weighed => ({ weighed, sensitivity: inside })),
    ...others.map(weighed => ({ weighed, sensitivity: outside })),
  ]);
};

const four = ratio(4n);

/** Expanded uncertainty U = 2u of a mass: `±0.12 g`, ties to even. */
export const showUncertainty = (variance: Ratio, places: number): string =>
  `±${rootText(times(variance, four), places)} g`;

/** Expanded uncertainty U = 2u of a share: `±0.02 %`, ties to even. */
export const showShareUncertainty = (variance: Ratio, places: number): string =>
  `±${rootText(times(variance, times(four, ratio(10_000n))), places)} %`;

/**
 * Whether a window is too narrow to claim that a mass lies in it: with a guard band of U on each side
 * (JCGM 106:2012, 8.3) nothing of it is left. Compared as squares, so exactly.
 */
export const isTooNarrowToClaim = ({ low, high }: Window, variance: Ratio): boolean =>
  !isMore(square(subtract(high, low)), times(variance, ratio(16n)));
