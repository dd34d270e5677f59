import {
  add,
  isLess,
  isMore,
  isPositive,
  isZero,
  type Mass,
  noMass,
  type Ratio,
  ratioOf,
} from '../quantity/quantity.ts';
import type { Limit } from './sheet.ts';

/** A mass of one material in one phase: an addition, or what an adjust step took. */
export interface Portion {
  readonly phase?: string;
  readonly material: string;
  readonly mass: Mass;
}

export interface LimitFinding {
  readonly limit: Limit;
  /** The share or ratio as it is; absent where nothing is there to divide by. */
  readonly actual?: Ratio;
  readonly holds: boolean;
}

const totalOf = (portions: readonly Portion[], counts: (portion: Portion) => boolean): Mass =>
  portions.reduce((total, each) => (counts(each) ? add(total, each.mass) : total), noMass);

const partAndWhole = (limit: Limit, portions: readonly Portion[]): [Mass, Mass] => {
  if (limit.kind === 'ratio') {
    return [
      totalOf(portions, each => each.material === limit.material),
      totalOf(portions, each => each.material === limit.to),
    ];
  }
  const inside = portions.filter(each => limit.phase === undefined || each.phase === limit.phase);
  return [totalOf(inside, each => each.material === limit.material), totalOf(inside, () => true)];
};

const isInside = ({ least, most }: Limit, actual: Ratio): boolean =>
  !(least !== undefined && isLess(actual, least)) && !(most !== undefined && isMore(actual, most));

/** A limit against what it bounds, over what. */
export const judgeLimit = (limit: Limit, part: Mass, whole: Mass): LimitFinding => {
  if (isZero(whole)) return { limit, holds: !isPositive(part) || limit.most === undefined };
  const actual = ratioOf<'g'>(part, whole);
  return { limit, actual, holds: isInside(limit, actual) };
};

/**
 * Each limit against what is in, in the sheet's order. With nothing to divide by, a limit holds unless
 * something stands against it: any mass of the first material then goes beyond every `most` of a ratio.
 */
export const evaluateLimits = (
  limits: readonly Limit[],
  portions: readonly Portion[],
): readonly LimitFinding[] =>
  limits.map(limit => judgeLimit(limit, ...partAndWhole(limit, portions)));
