import type { Term } from '../quantity/amount.ts';
import { add, type Mass, massOf, noMass, times, type Volume } from '../quantity/quantity.ts';
import { countUnits, massIn, massUnits, unitNamed, volumeUnits } from '../quantity/unit.ts';
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

// Absent here means that the key is missing, or that it was reported as unreadable.
const lacks = ({ key, material }: Weighing, property: Property, term: Term, fault: Fault) =>
  material.has.has(property)
    ? undefined
    : fault(
        'no-density',
        `${quote(key)} has no ${property}, so what ${quote(term.unit)} of it weighs is not known.`,
        `Add ${property}: ${examples[property]} (its own) to ${quote(key)} under materials, or write this amount in g.`,
      );

const ofVolume = (weighing: Weighing, volume: Volume, term: Term, fault: Fault) => {
  const { density } = weighing.material;
  return density === undefined
    ? lacks(weighing, 'density', term, fault)
    : massOf(times(volume, term.amount), density);
};

const ofCount = (weighing: Weighing, name: string, term: Term, fault: Fault) => {
  const { drop, each } = weighing.material;
  if (name === 'drop') {
    return drop === undefined
      ? lacks(weighing, 'drop', term, fault)
      : ofVolume(weighing, drop, term, fault);
  }
  return each === undefined ? lacks(weighing, 'each', term, fault) : times(each, term.amount);
};

/** Whether an amount is in units that exist. */
export const isInUnits = (amount: DraftSum, measures: ReadonlyMap<string, Volume>): boolean =>
  amount.terms.every(({ unit }) =>
    [massUnits, volumeUnits, countUnits, measures].some(
      units => unitNamed(unit, units) !== undefined,
    ),
  );

const ofTerm = (weighing: Weighing, typed: string, term: Term, fault: Fault) => {
  const unit = (units: { readonly has: (name: string) => boolean }) => unitNamed(term.unit, units);
  const mass = unit(massUnits);
  if (mass !== undefined) return massIn(term.amount, mass);
  const volumes = new Map([...weighing.measures, ...volumeUnits]);
  const volume = volumes.get(unit(volumes) ?? '');
  if (volume !== undefined) return ofVolume(weighing, volume, term, fault);
  const count = unit(countUnits);
  if (count !== undefined) return ofCount(weighing, count, term, fault);
  const mend = mendUnit(typed, term.unit, [...massUnits.keys(), ...volumes.keys(), ...countUnits]);
  return fault('unknown-unit', `The unit ${quote(term.unit)} cannot stand here.`, mend);
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
