import { type Mass, noMass, sum } from '../../../core/quantity/quantity.ts';
import type { Replayed } from './replayed.ts';
import { totalOf } from './weighing.ts';

/** All that an adjust step took so far. */
export const adjustedTotal = ({ adjusted }: Replayed, n: number): Mass =>
  sum(
    noMass,
    (adjusted.get(n) ?? []).map(({ mass }) => mass),
  );

/** Net mass that went in at a step; nothing for steps where nothing goes in. */
export const massAt = (replayed: Replayed, n: number): Mass => {
  const weighing = replayed.weighings.get(n);
  return weighing === undefined ? adjustedTotal(replayed, n) : totalOf(weighing);
};
