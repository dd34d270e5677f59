import { one } from '../quantity/quantity.ts';
import { limitsAt } from './check-limits.ts';
import { asPlanned, finishAt, type Ground, groundOf, isOver } from './finish.ts';
import { scrap } from './offer.ts';
import type { Remedy } from './remedy.ts';
import type { Situation } from './situation.ts';
import { accept, takeBack } from './stays.ts';
import { stretches } from './stretches.ts';

/**
 * The limits, by their place in the sheet, that the batch would keep if nothing had been poured over:
 * only those can still be broken by a remedy.
 */
const keptLimits = (ground: Ground): ReadonlySet<number> => {
  const lines = ground.lines.map(each => (isOver(each) ? asPlanned(each) : each));
  const verdicts = limitsAt(ground, finishAt(lines, one));
  return new Set(verdicts.flatMap(({ holds }, at) => (holds ? [at] : [])));
};

/**
 * What can still be done, always in this order: take back, least stretch, whole pieces, exact
 * proportion, accept, scrap. What would break a limit that still holds, overflow a vessel or outrun
 * the stock is refused with its reason.
 */
export const remedies = (situation: Situation): readonly Remedy[] => {
  const ground = groundOf(situation);
  const kept = keptLimits(ground);
  return [takeBack(ground, kept), ...stretches(ground, kept), accept(ground, kept), scrap(ground)];
};
