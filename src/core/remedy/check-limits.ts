/** The sheet's limits at a projected finish. */

import { grams, ratio } from '../quantity/quantity.ts';
import { judgeLimit, type LimitFinding } from '../sheet/limits.ts';
import type { Limit } from '../sheet/sheet.ts';
import { type Finish, type Ground, mayStillTake } from './finish.ts';
import type { Fraction } from './measured-line.ts';

/** How full the adjust steps that are not done are thought: with nothing more, or at their most. */
export type Adjusts = 'nothing more' | 'most';

interface Counted {
  readonly phase: string;
  readonly material: string;
}

const totalOf = (
  { adjusts, unit }: Ground,
  { pours, stretch }: Finish,
  full: Adjusts,
  counts: (each: Counted) => boolean,
): Fraction => {
  let poured = 0n;
  for (const { measured, mass } of pours) if (counts(measured.line)) poured += mass;
  let sprayed = 0n;
  for (const each of adjusts) {
    if (!counts(each.adjusting)) continue;
    poured += each.net;
    if (full === 'most') sprayed += mayStillTake(each, stretch);
  }
  return { num: poured * stretch.den + sprayed, den: unit * stretch.den };
};

/** What a limit bounds, over what: a material over a phase or the batch, or over another material. */
export const partAndWhole = (
  ground: Ground,
  finish: Finish,
  limit: Limit,
  full: Adjusts,
): readonly [part: Fraction, whole: Fraction] => {
  const total = (counts: (each: Counted) => boolean) => totalOf(ground, finish, full, counts);
  if (limit.kind === 'ratio') {
    return [
      total(each => each.material === limit.material),
      total(each => each.material === limit.to),
    ];
  }
  const isInside = ({ phase }: Counted) => limit.phase === undefined || limit.phase === phase;
  return [total(each => isInside(each) && each.material === limit.material), total(isInside)];
};

const massOf = ({ num, den }: Fraction) => grams(ratio(num, den));

const findingAt = (ground: Ground, finish: Finish, limit: Limit, full: Adjusts): LimitFinding => {
  const [part, whole] = partAndWhole(ground, finish, limit, full);
  return judgeLimit(limit, massOf(part), massOf(whole));
};

export interface LimitVerdict extends LimitFinding {
  /** Of the two ways that the adjust steps can go, the worse one. */
  readonly full: Adjusts;
}

export const asFinding = ({ limit, actual, holds }: LimitVerdict): LimitFinding =>
  actual === undefined ? { limit, holds } : { limit, actual, holds };

/** Each limit at a finish; it holds only if it does whether the adjust steps take nothing more or their most. */
export const limitsAt = (ground: Ground, finish: Finish): readonly LimitVerdict[] =>
  ground.situation.limits.map(limit => {
    const verdict = (full: Adjusts): LimitVerdict => ({
      ...findingAt(ground, finish, limit, full),
      full,
    });
    const bare = verdict('nothing more');
    if (!bare.holds || ground.adjusts.length === 0) return bare;
    const most = verdict('most');
    return most.holds ? bare : most;
  });
