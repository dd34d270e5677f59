/** What to fetch from the shelf for several batches. */
import type { Plan, PlannedStep, Scale } from '../core/plan/plan.ts';
import { targetOf } from '../core/plan/window.ts';
import { placesOf } from '../core/quantity/decimal.ts';
import { type Mass, noMass, sum } from '../core/quantity/quantity.ts';
import type { Problem } from '../core/sheet/problem.ts';
import type { Material, Sheet } from '../core/sheet/sheet.ts';

/** A sheet with its plan for today and what was found. */
export interface PlannedSheet {
  readonly path: string;
  readonly sheet: Sheet;
  readonly plan: Plan;
  readonly problems: readonly Problem[];
}

interface Amount {
  /** The targets of all its additions. */
  readonly mass: Mass;
  /** The most that adjust steps may take, beyond the additions. */
  readonly adjust: Mass;
  /** Decimals of a gram that the scales of the additions show. */
  readonly places: number;
}

export interface Picked extends Amount {
  readonly name: string;
  /** Each INCI name that the sheets give it, once. */
  readonly inci: readonly string[];
  /** One for each sheet, in their order. */
  readonly parts: readonly Amount[];
}

const exactPlaces = 4;

const placesOn = (scale: Scale | undefined): number =>
  scale === undefined ? exactPlaces : Math.min(placesOf(scale.readability), exactPlaces);

/** A line that no scale can weigh counts with its exact mass. */
const ofStep = ({ addition, most }: PlannedStep): Amount => ({
  mass: addition === undefined ? noMass : targetOf(addition),
  adjust: most ?? noMass,
  places: addition === undefined ? 0 : placesOn(addition.onScale?.scale),
});

const materialOf = (sheet: Sheet, { step }: PlannedStep): Material | undefined =>
  step.kind === 'add' || step.kind === 'adjust' ? sheet.materials.get(step.material) : undefined;

const total = (amounts: readonly Amount[]): Amount => ({
  mass: sum(
    noMass,
    amounts.map(each => each.mass),
  ),
  adjust: sum(
    noMass,
    amounts.map(each => each.adjust),
  ),
  places: Math.max(0, ...amounts.map(each => each.places)),
});

const stepsWith = ({ sheet, plan }: PlannedSheet, name: string): readonly PlannedStep[] =>
  plan.steps.filter(each => materialOf(sheet, each)?.name === name);

const pick = (sheets: readonly PlannedSheet[], name: string): Picked => {
  const steps = sheets.map(each => stepsWith(each, name));
  const parts = steps.map(each => total(each.map(ofStep)));
  const inci = sheets.flatMap(({ sheet }, index) =>
    (steps[index] ?? []).flatMap(each => materialOf(sheet, each)?.inci ?? []),
  );
  return {
    name,
    inci: [...new Set(inci)],
    ...total(parts),
    parts,
  };
};

/** Each material once, in the order of the sheets: two are the same where their names are the same, letter for letter. */
export const pickingList = (sheets: readonly PlannedSheet[]): readonly Picked[] => {
  const names = sheets.flatMap(({ sheet, plan }) =>
    plan.steps.flatMap(each => materialOf(sheet, each)?.name ?? []),
  );
  return [...new Set(names)].map(name => pick(sheets, name));
};
