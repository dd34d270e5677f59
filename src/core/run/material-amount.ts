import type { Term } from '../quantity/amount.ts';
import { add, isPositive, type Mass, massOf, noMass, times } from '../quantity/quantity.ts';
import { countUnits, massUnits, unitNamed, volumeUnits } from '../quantity/unit.ts';
import type { Material, Sheet } from '../sheet/sheet.ts';

const massOfCount = (material: Material, unit: string): Mass | undefined => {
  if (unit === 'each') return material.each;
  return material.drop && material.density && massOf(material.drop, material.density);
};

const massOfOne = (
  unit: string,
  material: Material,
  measures: Sheet['measures'],
): Mass | undefined => {
  const mass = unitNamed(unit, massUnits);
  if (mass !== undefined) return massUnits.get(mass);
  const count = unitNamed(unit, countUnits);
  if (count !== undefined) return massOfCount(material, count);
  const volume =
    volumeUnits.get(unitNamed(unit, volumeUnits) ?? '') ??
    measures.get(unitNamed(unit, measures) ?? '');
  return volume && material.density && massOf(volume, material.density);
};

/** What amounts of a material weigh; undefined for a unit that is unknown, or that it gives no density, drop or each for. */
export const massOfTerms = (
  terms: readonly Term[],
  material: Material,
  measures: Sheet['measures'],
): Mass | undefined => {
  let total = noMass;
  for (const { amount, unit } of terms) {
    const one = massOfOne(unit, material, measures);
    if (one === undefined) return undefined;
    total = add(total, times(one, amount));
  }
  return isPositive(total) ? total : undefined;
};
