import type { Term } from '../quantity/amount.ts';
import { add, type Mass, massOf, noMass, times, type Volume } from '../quantity/quantity.ts';
import { countUnits, massUnits, unitNamed, volumeUnits } from '../quantity/unit.ts';
import { quote } from './quote.ts';
import type { DraftSum } from './read-amount.ts';
import type { DraftMaterial } from './read-material.ts';
import type { Fault } from './reader.ts';
import { mendUnit } from './unit-mend.ts';

export interface Weighing {
  /** As the sheet names it. */
  readonly key: string;
  readonly material: DraftMaterial;
  /** The sheet's own. */
  readonly measures: ReadonlyMap<string, Volume>;
}

const examples = { density: '1.05 g/mL', drop: '0.03 mL', each: '5 g' } as const;

type Property = keyof typeof examples;

/** What one of a unit weighs, or the property that is missing for it; undefined for a unit that does not exist. */
export const massOfOne = (
  unit: string,
  { density, drop, each }: { readonly [Name in Property]?: DraftMaterial[Name] },
  measures: ReadonlyMap<string, Volume>,
): Mass | Property | undefined => {
  const named = (units: { readonly has: (name: string) => boolean }) =>
    unitNamed(unit, units) ?? '';
  const ofVolume = (volume: Volume) =>
    density === undefined ? 'density' : massOf(volume, density);
  const mass = massUnits.get(named(massUnits));
  if (mass !== undefined) return mass;
  const volume = volumeUnits.get(named(volumeUnits)) ?? measures.get(named(measures));
  if (volume !== undefined) return ofVolume(volume);
  const count = unitNamed(unit, countUnits);
  if (count === undefined) return undefined;
  if (count === 'each') return each ?? 'each';
  return drop === undefined ? 'drop' : ofVolume(drop);
};

// Absent here means that the key is missing, or that it was reported as unreadable.
const lacks = ({ key, material }: Weighing, property: Property, term: Term, fault: Fault) =>
  material.has.has(property)
    ? undefined
    : fault(
        'no-density',
        `${quote(key)} has no ${property}, so what ${quote(term.unit)} of it weighs is not known.`,
        `Add ${property}: ${examples[property]} (its own) to ${quote(key)} under materials, or write this amount in g.`,
      );

/** Whether an amount is in units that exist. */
export const isInUnits = (amount: DraftSum, measures: ReadonlyMap<string, Volume>): boolean =>
  amount.terms.every(({ unit }) =>
    [massUnits, volumeUnits, countUnits, measures].some(
      units => unitNamed(unit, units) !== undefined,
    ),
  );

const ofTerm = (weighing: Weighing, typed: string, term: Term, fault: Fault) => {
  const one = massOfOne(term.unit, weighing.material, weighing.measures);
  if (one === undefined) {
    const units = [massUnits, weighing.measures, volumeUnits, countUnits];
    const mend = mendUnit(typed, term.unit, new Set(units.flatMap(each => [...each.keys()])));
    return fault('unknown-unit', `The unit ${quote(term.unit)} cannot stand here.`, mend);
  }
  return typeof one === 'string' ? lacks(weighing, one, term, fault) : times(one, term.amount);
};

/** What an absolute amount of a material weighs; undefined where that cannot be known, and `fault` is told why. */
export const weigh = (weighing: Weighing, amount: DraftSum, fault: Fault): Mass | undefined => {
  let total = noMass;
  for (const term of amount.terms) {
    const mass = ofTerm(weighing, amount.typed, term, fault);
    if (mass === undefined) return undefined;
    total = add(total, mass);
  }
  return total;
};
