import { toDecimal } from '../quantity/decimal.ts';
import type { Ratio } from '../quantity/quantity.ts';
import { showShare } from '../quantity/show.ts';
import type { LimitFinding } from '../sheet/limits.ts';
import type { Limit, Sheet } from '../sheet/sheet.ts';

const showIn = (limit: Limit, value: Ratio): string =>
  limit.kind === 'share' ? showShare(value, 2) : toDecimal(value, 3, 'half-even');

const nameOf = (sheet: Sheet, key: string): string => sheet.materials.get(key)?.name ?? key;

/** `Cedarwood blend in the batch`. */
export const limitSubject = (sheet: Sheet, limit: Limit): string =>
  limit.kind === 'share'
    ? `${nameOf(sheet, limit.material)} in ${limit.phase ?? 'the batch'}`
    : `${nameOf(sheet, limit.material)} to ${nameOf(sheet, limit.to)}`;

/** `Cedarwood blend in the batch, at most 3.00 %`. */
const nameLimit = (sheet: Sheet, limit: Limit): string =>
  [
    limitSubject(sheet, limit),
    ...(limit.least === undefined ? [] : [`at least ${showIn(limit, limit.least)}`]),
    ...(limit.most === undefined ? [] : [`at most ${showIn(limit, limit.most)}`]),
  ].join(', ');

/** The limit, and what it comes to. */
export const explainLimit = (sheet: Sheet, { limit, actual }: LimitFinding): string =>
  actual === undefined
    ? nameLimit(sheet, limit)
    : `${nameLimit(sheet, limit)}; it comes to ${showIn(limit, actual)}`;
