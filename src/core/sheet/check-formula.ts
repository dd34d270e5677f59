import { toDecimal } from '../quantity/decimal.ts';
import {
  absolute,
  dividedBy,
  isMore,
  type Mass,
  type Ratio,
  ratio,
  ratioOf,
  subtract,
  times,
} from '../quantity/quantity.ts';
import { toWhole } from '../quantity/rounding.ts';
import { buildLimit } from './build-limit.ts';
import { type Formula, keptOf } from './formula.ts';
import { evaluateLimits, type Portion } from './limits.ts';
import { quote } from './quote.ts';
import { faultAt, type Report } from './reader.ts';
import type { Limit } from './sheet.ts';
import type { DraftSheet } from './sheet-reader.ts';
import { limitsOf } from './walk.ts';

// Adjust steps count from nothing to their most. A limit's own material brings it nearest to its most,
// everything else nearest to its least.
const worst = (limit: Limit, { additions, adjustments }: Formula, side: 'least' | 'most') => [
  ...additions,
  ...adjustments.filter(each => (each.material === limit.material) === (side === 'most')),
];

const trimmed = (decimal: string): string => decimal.replace(/\.?0+$/, '');

const show = (limit: Limit, actual: Ratio, side: 'least' | 'most'): string => {
  const rounding = side === 'most' ? 'up' : 'down';
  return limit.kind === 'share'
    ? `${trimmed(toDecimal(times(actual, ratio(100n)), 3, rounding))} %`
    : trimmed(toDecimal(actual, 4, rounding));
};

const bounded = (limit: Limit): string =>
  limit.kind === 'share'
    ? `The share of ${quote(limit.material)} in ${limit.phase === undefined ? 'the batch' : quote(limit.phase)}`
    : `The ratio of ${quote(limit.material)} to ${quote(limit.to)}`;

const checkSide = (limit: Limit, formula: Formula, side: 'least' | 'most', report: Report) => {
  const { least: _, most: __, ...unbounded } = limit;
  const bound = limit[side];
  if (bound === undefined) return;
  const portions: readonly Portion[] = worst(limit, formula, side);
  const [found] = evaluateLimits([{ ...unbounded, [side]: bound }], portions);
  if (found === undefined || found.holds) return;
  const reached = found.actual && show(limit, found.actual, side);
  const adjusted = formula.adjustments.length === 0 ? '' : ', adjust steps counted,';
  const extent = side === 'most' ? 'up to' : 'down to';
  const message = `${bounded(limit)} comes${adjusted} ${extent} ${reached ?? 'anything'}; this limit does not allow it.`;
  const mend =
    reached === undefined
      ? 'Change the amounts.'
      : `Change the amounts; or, if the limit is wrong, write ${side}: ${reached}`;
  faultAt(limit.place, report)('limit-broken', message, mend);
};

/** Limits that the formula itself breaks, at the sheet's own size. */
export const checkLimits = (draft: DraftSheet, formula: Formula, report: Report): void => {
  for (const each of limitsOf(draft)) {
    const limit = buildLimit(each);
    if (limit === undefined) continue;
    checkSide(limit, formula, 'least', report);
    checkSide(limit, formula, 'most', report);
  }
};

// Kitchen measures never come to the very fill, so half a per cent is let pass.
const slack = ratio(1n, 200n);

const grams = (mass: Mass): string => `${trimmed(toDecimal(mass, 3, 'half-even'))} g`;

/** Tells an absolute sheet of which pieces its total really makes. */
export const checkMakes = (draft: DraftSheet, { total }: Formula, report: Report): void => {
  const kept = keptOf(draft);
  const { count, fill, place } = draft.makes ?? {};
  if (kept === undefined || count === undefined || fill === undefined || !place) return;
  const made = times(total, kept);
  const real = dividedBy(made, ratio(BigInt(count)));
  if (!isMore(absolute(subtract(real, fill)), times(fill, slack))) return;
  const pieces = toWhole(ratioOf<'g'>(made, fill), 'down');
  faultAt(place, report)(
    'makes-differs',
    `What is weighed in makes ${count} of ${grams(real)}, or ${pieces} of ${grams(fill)}.`,
    pieces > 0n ? `Write fill: ${grams(real)}, or count: ${pieces}.` : `Write fill: ${grams(real)}`,
  );
};
