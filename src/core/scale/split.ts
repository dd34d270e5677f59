import type { Window } from '../plan/plan.ts';
import {
  add,
  dividedBy,
  type Mass,
  ratio,
  ratioOf,
  subtract,
  times,
} from '../quantity/quantity.ts';

/**
 * Splits a target into weighings: multiples of `readability` that add up to it and differ by one
 * division at most, the larger ones first. Throws a RangeError where the target is no multiple, or has
 * fewer divisions than there are weighings.
 */
export const splitEvenly = (
  target: Mass,
  readability: Mass,
  weighings: number,
): readonly Mass[] => {
  const divisions = ratioOf<'g'>(target, readability);
  const count = BigInt(weighings);
  if (divisions.den !== 1n || count < 1n || divisions.num < count) {
    throw new RangeError('no even split in whole divisions');
  }
  const [share, larger] = [divisions.num / count, divisions.num % count];
  return Array.from({ length: weighings }, (_, index) =>
    times(readability, ratio(BigInt(index) < larger ? share + 1n : share)),
  );
};

/** The window of one of several weighings: its part of the room on each side, so that the sum is in where each part is. */
export const windowOfPart = (
  part: Mass,
  {
    target,
    window,
    weighings,
  }: {
    readonly target: Mass;
    readonly window: Window;
    readonly weighings: number;
  },
): Window => {
  const room = (side: Mass): Mass => dividedBy(side, ratio(BigInt(weighings)));
  return {
    low: subtract(part, room(subtract(target, window.low))),
    high: add(part, room(subtract(window.high, target))),
  };
};
