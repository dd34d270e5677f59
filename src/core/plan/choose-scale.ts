import {
  compare,
  grams,
  isMore,
  isPositive,
  type Mass,
  ratio,
  ratioOf,
} from '../quantity/quantity.ts';
import { toWhole } from '../quantity/rounding.ts';
import type { OnScale, Scale, Window } from './plan.ts';
import { onScale } from './window.ts';

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

export interface ScaleChoice {
  /** Absent where no scale has a multiple of its readability in the window. */
  readonly onScale?: OnScale;
  readonly weighings: number;
}

const finestFirst = (scales: readonly Scale[]): readonly Scale[] =>
  scales.toSorted(
    (a, b) => compare(a.readability, b.readability) || compare(b.capacity, a.capacity),
  );

const carries = ({ scale, high }: OnScale, window: Window): boolean =>
  !isMore(high ?? window.high, scale.capacity);

const largest = (scales: readonly Scale[]): readonly Scale[] => {
  const [first] = scales.toSorted((a, b) => compare(b.capacity, a.capacity));
  return first === undefined ? [] : [first];
};

const weighingsOn = ({ scale, high }: OnScale): number =>
  high === undefined || !isPositive(scale.capacity)
    ? 1
    : Math.max(1, Number(toWhole(ratioOf<'g'>(high, scale.capacity), 'up')));

/**
 * The finest scale that carries the greatest mass still accepted and has a reading inside the window.
 * Where none can carry it, the one of greatest capacity, with as many weighings as it takes.
 */
export const chooseScale = (exact: Mass, window: Window, scales: readonly Scale[]): ScaleChoice => {
  const sorted = finestFirst(scales);
  const able = sorted.map(scale => onScale(exact, window, scale));
  const carrying = able.filter(each => carries(each, window));
  const candidates =
    carrying.length > 0 ? carrying : largest(sorted).map(scale => onScale(exact, window, scale));
  const chosen = candidates.find(each => each.target !== undefined);
  return chosen === undefined
    ? { weighings: 1 }
    : { onScale: chosen, weighings: weighingsOn(chosen) };
};
