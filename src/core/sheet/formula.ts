import {
  dividedBy,
  type Mass,
  noMass,
  one,
  type Ratio,
  ratio,
  subtract,
  sum,
  times,
  zero,
} from '../quantity/quantity.ts';
import type { Portion } from './limits.ts';
import type { DraftPhase } from './read-phase.ts';
import type { DraftAdd } from './read-step.ts';
import type { Amounts } from './resolve-amounts.ts';
import type { DraftSheet } from './sheet-reader.ts';
import { additionsOf, phasesOf, stepsOf } from './walk.ts';

/** What goes in at the sheet's own size. */
export interface Formula {
  readonly additions: readonly Portion[];
  /** Adjust steps at their most. */
  readonly adjustments: readonly Portion[];
  /** Of the additions. */
  readonly total: Mass;
}

/** What stays in the pieces, of all that is weighed in; undefined where that could not be read. */
export const keptOf = ({ makes }: DraftSheet): Ratio | undefined => {
  if (makes === undefined) return undefined;
  if (makes.loss === undefined) return makes.has.has('loss') ? undefined : one;
  return subtract(one, makes.loss);
};

const batchMass = (draft: DraftSheet): Mass | undefined => {
  const kept = keptOf(draft);
  const { count, fill } = draft.makes ?? {};
  if (kept === undefined || count === undefined || fill === undefined) return undefined;
  return dividedBy(times(fill, ratio(BigInt(count))), kept);
};

type MassOf = (phase: DraftPhase, step: DraftAdd) => Mass | undefined;

const masses = (draft: DraftSheet, amounts: Amounts): MassOf => {
  const batch = batchMass(draft);
  const shareOf = (step: DraftAdd): Ratio => {
    const amount = amounts.ofAdd.get(step);
    return amount?.kind === 'share' ? amount.share : zero;
  };
  return (phase, step) => {
    const amount = amounts.ofAdd.get(step);
    if (amount?.kind === 'mass') return amount.mass;
    if (amount === undefined || batch === undefined) return undefined;
    const share =
      amount.kind === 'share'
        ? amount.share
        : subtract(one, sum(zero, additionsOf(phase).map(shareOf)));
    return times(times(batch, phase.share?.value ?? one), share);
  };
};

// A portion of which anything is unknown makes the whole formula unknown.
const portion = (
  phase: DraftPhase,
  material: string | undefined,
  mass: Mass | undefined,
): Portion | undefined =>
  material === undefined || mass === undefined || phase.phase === undefined
    ? undefined
    : { phase: phase.phase.value, material, mass };

/** The formula of a sheet whose percentages add up; undefined where an amount could not be read. */
export const formulaOf = (draft: DraftSheet, amounts: Amounts): Formula | undefined => {
  const massOf = masses(draft, amounts);
  const additions: Portion[] = [];
  const adjustments: Portion[] = [];
  for (const phase of phasesOf(draft)) {
    for (const step of stepsOf(phase)) {
      if (step.kind !== 'add' && step.kind !== 'adjust') continue;
      const found =
        step.kind === 'add'
          ? portion(phase, step.add?.value, massOf(phase, step))
          : portion(phase, step.adjust?.value, amounts.most.get(step)?.mass);
      if (found === undefined) return undefined;
      (step.kind === 'add' ? additions : adjustments).push(found);
    }
  }
  const total = sum(
    noMass,
    additions.map(each => each.mass),
  );
  return { additions, adjustments, total };
};
