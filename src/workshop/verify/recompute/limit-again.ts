/** A limit of the sheet on so much of each material, a second time. */
import {
  isLess,
  isMore,
  isZero,
  type Mass,
  noMass,
  sum,
  times,
} from '../../../core/quantity/quantity.ts';
import type { Limit } from '../../../core/sheet/sheet.ts';

export interface Portion {
  readonly phase: string;
  readonly material: string;
  readonly mass: Mass;
}

export interface Bounded {
  readonly part: Mass;
  readonly whole: Mass;
}

const sumOf = (portions: readonly Portion[], counts: (each: Portion) => boolean): Mass =>
  sum(
    noMass,
    portions.filter(counts).map(({ mass }) => mass),
  );

/** What a limit bounds, over what: of the batch or a phase, or of another material. */
export const boundedBy = (limit: Limit, portions: readonly Portion[]): Bounded => {
  const phase = limit.kind === 'share' ? limit.phase : undefined;
  const isInside = (each: Portion): boolean => phase === undefined || each.phase === phase;
  return {
    part: sumOf(portions, each => isInside(each) && each.material === limit.material),
    whole: sumOf(portions, each =>
      limit.kind === 'ratio' ? each.material === limit.to : isInside(each),
    ),
  };
};

/** With nothing to divide by, only something against a `most` breaks it. */
export const isKept = ({ least, most }: Limit, part: Mass, whole: Mass): boolean => {
  if (most !== undefined && isMore(part, times(whole, most))) return false;
  return isZero(whole) || least === undefined || !isLess(part, times(whole, least));
};
