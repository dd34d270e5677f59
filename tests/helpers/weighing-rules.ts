/**
 * The rules of sheet.md on scales, targets, windows and weighings a second time: every scale and every
 * number of weighings is tried, in fractions that know nothing of the program's.
 */
import type { Side } from './as-program.ts';
import { by, type Fraction, minus, order, over, plus, wholeAbove, wholeBelow } from './fraction.ts';
import type { LineGiven, ScaleGiven } from './random-scales.ts';

export interface Range {
  readonly low: Fraction;
  readonly high: Fraction;
}

/** One way of weighing a line. */
export interface Way {
  /** Its number among the scales given. */
  readonly scale: number;
  readonly d: Fraction;
  readonly capacity: Fraction;
  /** In divisions. */
  readonly target: bigint;
  readonly low: bigint;
  readonly high: bigint;
  readonly weighings: bigint;
  readonly isTooNarrow: boolean;
  readonly isNarrow: boolean;
  readonly isLight: boolean;
}

const isUnder = (a: Fraction, b: Fraction): boolean => order(a, b) < 0n;
const ofDivisions = (count: bigint, d: Fraction): Fraction => [d[0] * count, d[1]];

const widthOf = ({ kind, value }: Side, exact: Fraction, floor: Fraction | undefined) => {
  const width = kind === 'share' ? by(exact, value) : value;
  return width[0] !== 0n && floor !== undefined && isUnder(width, floor) ? floor : width;
};

export const windowApart = (line: LineGiven, exact: Fraction): Range => ({
  low: minus(exact, widthOf(line.under, exact, line.floor)),
  high: plus(exact, widthOf(line.over, exact, line.floor)),
});

// OIML R 76-1 (2006) Table 3: class, least and greatest e in grams, Min in e.
const minimumCapacities: readonly (readonly [string, Fraction, Fraction, bigint])[] = [
  ['I', [1n, 1000n], [10n ** 9n, 1n], 100n],
  ['II', [1n, 1000n], [5n, 100n], 20n],
  ['II', [1n, 10n], [10n ** 9n, 1n], 50n],
  ['III', [1n, 10n], [2n, 1n], 20n],
  ['III', [5n, 1n], [10n ** 9n, 1n], 20n],
  ['IIII', [5n, 1n], [10n ** 9n, 1n], 10n],
];

const leastLoadApart = ({
  d,
  e = d,
  accuracyClass,
  least,
  s,
}: ScaleGiven): Fraction | undefined => {
  if (least !== undefined) return least;
  const row = minimumCapacities.find(
    ([name, from, to]) => name === accuracyClass && !isUnder(e, from) && !isUnder(to, e),
  );
  if (row !== undefined) return ofDivisions(row[3], e);
  if (s === undefined) return undefined;
  // USP <41>: 2000 s, and s is never taken as less than 0.41 d.
  const floor = by(d, [41n, 100n]);
  return ofDivisions(2000n, isUnder(s, floor) ? floor : s);
};

/** The multiple of d inside the window nearest to the exact mass, ties to even; undefined where none is inside. */
const nearestInside = (exact: Fraction, low: bigint, high: bigint, d: Fraction): bigint => {
  const below = wholeBelow(over(exact, d));
  const near = [below, below + 1n, low, high].filter(k => k >= low && k <= high);
  const far = (k: bigint): Fraction => {
    const off = minus(ofDivisions(k, d), exact);
    return off[0] < 0n ? [-off[0], off[1]] : off;
  };
  return near.reduce((best, k) => {
    const closer = order(far(k), far(best));
    return closer < 0n || (closer === 0n && k % 2n === 0n) ? k : best;
  });
};

const part = (of: Fraction, count: bigint): Fraction => [of[0], of[1] * count];

/** What each of so many even weighings may come to at most, rounded down to the display. */
const mostShown = (target: bigint, { high }: Range, d: Fraction, weighings: bigint): bigint => {
  const largest = (target + weighings - 1n) / weighings;
  const room = minus(high, ofDivisions(target, d));
  return wholeBelow(over(plus(ofDivisions(largest, d), part(room, weighings)), d));
};

const wayOn = (
  exact: Fraction,
  window: Range,
  scales: readonly ScaleGiven[],
  at: number,
): Way | undefined => {
  const scale = scales[at];
  if (scale === undefined) return undefined;
  const { d, capacity } = scale;
  const [low, high] = [wholeAbove(over(window.low, d)), wholeBelow(over(window.high, d))];
  if (low > high) return undefined;
  const target = nearestInside(exact, low, high, d);
  for (let weighings = 1n; weighings <= 20n; weighings += 1n) {
    if (weighings > 1n && weighings > target) return undefined;
    if (order(ofDivisions(mostShown(target, window, d, weighings), d), capacity) > 0n) continue;
    const width = part(minus(window.high, window.low), weighings);
    const least = leastLoadApart(scale);
    const lightest = weighings === 1n ? target : target / weighings;
    return {
      scale: at,
      d,
      capacity,
      target,
      low,
      high,
      weighings,
      isTooNarrow: isUnder(width, ofDivisions(2n, d)),
      isNarrow: isUnder(width, ofDivisions(4n, d)),
      isLight: least !== undefined && isUnder(ofDivisions(lightest, d), least),
    };
  }
  return undefined;
};

// The order of DEVELOPERS.md, from what is wished for to what can just be lived with.
const steps: readonly ((way: Way) => boolean)[] = [
  way => !way.isNarrow && !way.isLight && way.weighings === 1n,
  way => !way.isTooNarrow && !way.isLight && way.weighings === 1n,
  way => !way.isNarrow && way.weighings === 1n,
  way => !way.isTooNarrow && way.weighings === 1n,
  way => !way.isNarrow && !way.isLight,
  way => !way.isTooNarrow && !way.isLight,
  way => !way.isNarrow,
  way => !way.isTooNarrow,
  way => !way.isLight && way.weighings === 1n,
  way => way.weighings === 1n,
  way => !way.isLight,
  () => true,
];

const isBefore = (a: Way, b: Way): boolean => {
  if (a.weighings !== b.weighings) return a.weighings < b.weighings;
  const finer = order(a.d, b.d);
  return finer === 0n ? order(a.capacity, b.capacity) > 0n : finer < 0n;
};

/** The way that the rules ask for; undefined where no scale can weigh the line. */
export const wayAskedFor = (
  exact: Fraction,
  window: Range,
  scales: readonly ScaleGiven[],
): Way | undefined => {
  const ways = scales.flatMap((_, at) => wayOn(exact, window, scales, at) ?? []);
  for (const step of steps) {
    const [first, ...others] = ways.filter(step);
    if (first !== undefined)
      return others.reduce((best, way) => (isBefore(way, best) ? way : best), first);
  }
  return undefined;
};

/** What `plan` has to find about the line, in the order of the alphabet; uncertainty apart. */
export const findingsAskedFor = (window: Range, way: Way | undefined): readonly string[] => {
  const found = window.low[0] <= 0n ? ['window-reaches-zero'] : [];
  if (way === undefined) return [...found, 'no-scale'].toSorted();
  if (way.isNarrow) found.push(way.isTooNarrow ? 'window-too-narrow' : 'window-narrow');
  if (way.isLight) found.push('under-least-load');
  if (way.weighings > 1n) found.push('several-weighings');
  return found.toSorted();
};
