import {
  add,
  dividedBy,
  type Mass,
  noMass,
  one,
  ratio,
  subtract,
  sum,
  times,
} from '../quantity/quantity.ts';
import type { AddStep, Phase, Sheet, Step } from '../sheet/sheet.ts';

const additionsOf = (phase: Phase): readonly AddStep[] =>
  phase.steps.filter(step => step.kind === 'add');

const restOf = (phase: Phase) =>
  additionsOf(phase).reduce(
    (left, { amount }) => (amount.kind === 'share' ? subtract(left, amount.share) : left),
    one,
  );

const lineMass = (phaseMass: Mass, phase: Phase, { amount }: AddStep): Mass => {
  if (amount.kind === 'mass') return amount.mass;
  return times(phaseMass, amount.kind === 'share' ? amount.share : restOf(phase));
};

/** Mass weighed in that one whole piece takes, loss included. */
export const massPerPiece = ({ makes }: Sheet): Mass =>
  dividedBy(makes.fill, subtract(one, makes.loss));

/** Mass weighed in at the sheet's nominal size: count · fill / (1 − loss), or what an absolute sheet adds up to. */
export const nominalMass = (sheet: Sheet): Mass =>
  sheet.basis === 'percentages'
    ? times(massPerPiece(sheet), ratio(BigInt(sheet.makes.count)))
    : sum(
        noMass,
        sheet.phases.flatMap(phase =>
          additionsOf(phase).map(step => lineMass(noMass, phase, step)),
        ),
      );

/** Exact mass of every addition, and the most of every adjust step, at the sheet's nominal size. */
export const nominalMasses = (sheet: Sheet): ReadonlyMap<Step, Mass> => {
  const batch = nominalMass(sheet);
  const masses = new Map<Step, Mass>();
  for (const phase of sheet.phases) {
    const phaseMass = times(batch, phase.share ?? one);
    for (const step of phase.steps) {
      if (step.kind === 'add') masses.set(step, lineMass(phaseMass, phase, step));
      if (step.kind === 'adjust') masses.set(step, step.most.mass);
    }
  }
  return masses;
};

/** Nominal mass of each material that is weighed in, summed over its additions; adjust steps stand outside. */
export const nominalMaterials = (sheet: Sheet): ReadonlyMap<string, Mass> => {
  const totals = new Map<string, Mass>();
  for (const [step, mass] of nominalMasses(sheet)) {
    if (step.kind !== 'add') continue;
    totals.set(step.material, add(totals.get(step.material) ?? noMass, mass));
  }
  return totals;
};
