/** Sentences about masses, steps and deviations, the same in both faces. */
import type { Addition, PlannedStep } from '../plan/plan.ts';
import { add, isNegative, isZero, type Mass, negate, subtract } from '../quantity/quantity.ts';
import { showDifference, showGrams, showMass } from '../quantity/show.ts';
import type { Way } from '../run/event.ts';
import { grossBefore } from '../run/judge.ts';
import type { AdditionState, RunFacts } from '../run/state.ts';
import { titleOfStep } from '../sheet/step-title.ts';

/** On the addition's scale, with its decimals. */
export const showOn = ({ onScale }: Addition, mass: Mass): string =>
  onScale === undefined ? showGrams(mass, 4) : showMass(mass, onScale.scale);

export const differenceOn = ({ onScale }: Addition, mass: Mass): string =>
  onScale === undefined ? showGrams(mass, 4) : showDifference(mass, onScale.scale);

/** The target in divisions of the scale, or the exact one where there is none. */
export const targetOf = (addition: Addition): Mass => addition.onScale?.target ?? addition.exact;

export const leftToAdd = (addition: Addition, state: AdditionState): Mass =>
  subtract(targetOf(addition), state.total);

export const windowText = (addition: Addition): string => {
  const { low, high } = addition.onScale ?? {};
  return `${showOn(addition, low ?? addition.window.low)} to ${showOn(addition, high ?? addition.window.high)}`;
};

/** How far the total lies outside its window; zero inside. */
export const beyondWindow = ({ window }: Addition, total: Mass): Mass => {
  const over = subtract(total, window.high);
  const under = subtract(total, window.low);
  return over.num > 0n ? over : isNegative(under) ? under : subtract(total, total);
};

/** What the display shows gross when the target is reached; undefined for a line that is weighed in a cup. */
export const grossToExpect = (
  run: RunFacts,
  addition: Addition,
  state: AdditionState,
): Mass | undefined => {
  if (addition.place === 'cup' || !run.vessels.has(addition.vessel)) return undefined;
  const present = state.pours.at(-1)?.net ?? subtract(state.total, state.total);
  return add(grossBefore(run, addition, state), add(present, leftToAdd(addition, state)));
};

/** How a reading is taken unless the maker says otherwise. */
export const usualWay = ({ place }: Addition): Way => (place === 'cup' ? 'cup' : 'net');

export const wayText: Readonly<Record<Way, string>> = {
  net: 'net, since the tare',
  gross: 'gross, all that stands on the scale',
  cup: 'in a cup, then tipped in',
  difference: 'by difference, from the container',
};

/** What a step is about, in a few words. */
export const titleOf = ({ step, addition }: PlannedStep): string =>
  addition === undefined ? titleOfStep(step) : addition.name;

/** `3.4 g more` or `3.4 g less`; nothing for an exact hit. */
export const offTarget = (addition: Addition, total: Mass): string => {
  const off = subtract(total, targetOf(addition));
  if (isZero(off)) return 'right on target';
  return isNegative(off)
    ? `${showOn(addition, negate(off))} under target`
    : `${showOn(addition, off)} over target`;
};
