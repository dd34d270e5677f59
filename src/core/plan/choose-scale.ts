import {
  add,
  compare,
  grams,
  isLess,
  isMore,
  isPositive,
  type Mass,
  type Ratio,
  ratio,
  ratioOf,
} from '../quantity/quantity.ts';
import { toMultiple, toWhole } from '../quantity/rounding.ts';
import { leastLoad } from '../scale/least-load.ts';
import { splitEvenly, windowOfPart } from '../scale/split.ts';
import type { OnScale, Scale, WeighingPart, Window } from './plan.ts';
import { divisionsIn, onScale } from './window.ts';

/** What stands in until a scale is entered: 10 kg × 0.1 g and 200 g × 0.01 g. */
export const assumedScales: readonly Scale[] = [
  {
    name: 'big',
    capacity: grams(ratio(10_000n)),
    readability: grams(ratio(1n, 10n)),
    unit: 'g',
  },
  {
    name: 'fine',
    capacity: grams(ratio(200n)),
    readability: grams(ratio(1n, 100n)),
    unit: 'g',
  },
];

/** Nobody pours one line more often than this. */
export const mostWeighings = 20;

const enough = ratio(4n);
const least = ratio(2n);

export interface ScaleChoice {
  /** Absent where no scale can weigh the line. */
  readonly onScale?: OnScale;
  readonly weighings: number;
  readonly parts?: readonly WeighingPart[];
}

/** One way of weighing a line: a scale, and its weighings. */
interface Fit {
  readonly onScale: OnScale;
  readonly parts: readonly WeighingPart[];
}

/** How well weighings go with their scale. */
export interface Quality {
  /** Width of the window of one weighing, in divisions. */
  readonly divisions: Ratio;
  readonly isNarrow: boolean;
  readonly isTooNarrow: boolean;
  readonly isUnderLeastLoad: boolean;
}

export const qualityOf = (scale: Scale, parts: readonly WeighingPart[]): Quality => {
  // All weighings of a line have windows of one width.
  const [first] = parts;
  const divisions = first === undefined ? ratio(0n) : divisionsIn(first.window, scale.readability);
  const lightest = leastLoad(scale)?.mass;
  return {
    divisions,
    isNarrow: isLess(divisions, enough),
    isTooNarrow: isLess(divisions, least),
    isUnderLeastLoad: lightest !== undefined && parts.some(part => isLess(part.target, lightest)),
  };
};

const isCarried = ({ window }: WeighingPart, { capacity, readability }: Scale): boolean =>
  !isMore(toMultiple(window.high, readability, 'down'), capacity);

/** The fewest even weighings that the scale carries; undefined where there are too many, or more than divisions. */
const partsOn = (
  target: Mass,
  window: Window,
  scale: Scale,
): readonly WeighingPart[] | undefined => {
  if (isCarried({ target, window }, scale)) return [{ target, window }];
  if (!isPositive(scale.capacity)) return undefined;
  // What is carried is less than a division above the capacity: fewer weighings than this are too few.
  const most = ratioOf<'g'>(window.high, add(scale.capacity, scale.readability));
  const divisions = ratioOf<'g'>(target, scale.readability).num;
  for (let count = toWhole(most, 'down') + 1n; count <= BigInt(mostWeighings); count += 1n) {
    if (count > divisions) return undefined;
    const weighings = Number(count);
    const parts = splitEvenly(target, scale.readability, weighings).map(part => ({
      target: part,
      window: windowOfPart(part, { target, window, weighings }),
    }));
    if (parts.every(part => isCarried(part, scale))) return parts;
  }
  return undefined;
};

const fitOn = (exact: Mass, window: Window, scale: Scale): Fit | undefined => {
  const on = onScale(exact, window, scale);
  const parts = on.target && partsOn(on.target, window, scale);
  return parts && { onScale: on, parts };
};

// Smaller is better, the first number first: no error; one weighing; no warning; few weighings.
const rankOf = ({ onScale: { scale }, parts }: Fit): readonly number[] => {
  const { isNarrow, isTooNarrow, isUnderLeastLoad } = qualityOf(scale, parts);
  return [
    isTooNarrow ? 1 : 0,
    parts.length > 1 ? 1 : 0,
    (isUnderLeastLoad ? 2 : 0) + (isNarrow ? 1 : 0),
    parts.length,
  ];
};

const compareFits = (a: Fit, b: Fit): number => {
  const others = rankOf(b);
  const first = rankOf(a)
    .map((rank, index) => rank - (others[index] ?? 0))
    .find(difference => difference !== 0);
  return (
    first ??
    (compare(a.onScale.scale.readability, b.onScale.scale.readability) ||
      compare(b.onScale.scale.capacity, a.onScale.scale.capacity))
  );
};

/**
 * The finest scale that carries the line at once, whose window holds four divisions and whose least
 * load is not above the target. Where none is so, in this order: a narrow window (two to four
 * divisions), a target under the least load, both, several weighings, and last a window too narrow.
 */
export const chooseScale = (exact: Mass, window: Window, scales: readonly Scale[]): ScaleChoice => {
  const [best] = scales.flatMap(scale => fitOn(exact, window, scale) ?? []).toSorted(compareFits);
  if (best === undefined) return { weighings: 1 };
  const { parts } = best;
  return {
    onScale: best.onScale,
    weighings: parts.length,
    ...(parts.length > 1 ? { parts } : {}),
  };
};

/** Whether one of the scales carries the line in as many weighings as anyone would make, its window apart. */
export const isCarriedByAny = (exact: Mass, window: Window, scales: readonly Scale[]): boolean =>
  scales.some(scale => {
    const { target = window.high } = onScale(exact, window, scale);
    return partsOn(toMultiple(target, scale.readability, 'down'), window, scale) !== undefined;
  });
