import type { Term } from '../quantity/amount.ts';
import { add, isPositive, type Mass, noMass, times } from '../quantity/quantity.ts';
import type { Material, Sheet } from '../sheet/sheet.ts';
import { massOfOne } from '../sheet/weigh.ts';

/** What amounts of a material weigh; undefined for a unit that is unknown, or that it gives no density, drop or each for. */
export const massOfTerms = (
  terms: readonly Term[],
  material: Material,
  measures: Sheet['measures'],
): Mass | undefined => {
  let total = noMass;
  for (const { amount, unit } of terms) {
    const one = massOfOne(unit, material, measures);
    if (one === undefined || typeof one === 'string') return undefined;
    total = add(total, times(one, amount));
  }
  return isPositive(total) ? total : undefined;
};
