/** Sentences about masses, steps and deviations, the same in both faces. */
import type { Addition, PlannedStep } from '../plan/plan.ts';
import { targetOf } from '../plan/window.ts';
import {
  add,
  isNegative,
  isZero,
  type Mass,
  negate,
  noMass,
  smaller,
  subtract,
} from '../quantity/quantity.ts';
import { showDifference, showGrams, showMass } from '../quantity/show.ts';
import type { Way } from '../run/event.ts';
import { vesselNow } from '../run/focus.ts';
import { partNet, presentPart, presentPour } from '../run/judge.ts';
import { isPartDone } from '../run/pours.ts';
import type { AdditionState, RunFacts } from '../run/state.ts';
import { titleOfStep } from '../sheet/step-title.ts';

/** On the addition's scale, with its decimals. */
export const showOn = ({ onScale }: Addition, mass: Mass): string =>
  onScale === undefined ? showGrams(mass, 4) : showMass(mass, onScale.scale);

export const differenceOn = ({ onScale }: Addition, mass: Mass): string =>
  onScale === undefined ? showGrams(mass, 4) : showDifference(mass, onScale.scale);

export const leftToAdd = (addition: Addition, state: AdditionState): Mass =>
  subtract(targetOf(addition), state.total);

/** The weighing in hand of an addition that is planned as several, as an addition of its own. */
export interface WeighingInHand {
  readonly n: number;
  readonly of: number;
  readonly addition: Addition;
  /** What is in of it. */
  readonly net: Mass;
}

/** The last weighing takes all that is left, whatever the earlier ones came to. */
export const weighingInHand = (
  addition: Addition,
  state: AdditionState,
): WeighingInHand | undefined => {
  const present = presentPart(addition, state);
  const scale = addition.onScale?.scale;
  if (present === undefined || scale === undefined) return undefined;
  const { n, of, part } = present;
  const net = isPartDone(state) ? noMass : partNet(state, presentPour(state).net);
  const before = subtract(state.total, net);
  const left = subtract(targetOf(addition), before);
  const { low, high } = addition.window;
  const isLast = n === of;
  const target = isLast ? left : smaller(left, part.target);
  const window = isLast
    ? { low: subtract(low, before), high: subtract(high, before) }
    : part.window;
  return {
    n,
    of,
    net,
    addition: { ...addition, exact: target, window, onScale: { scale, target } },
  };
};

export const windowText = (addition: Addition): string => {
  const { low, high } = addition.onScale ?? {};
  return `${showOn(addition, low ?? addition.window.low)} to ${showOn(addition, high ?? addition.window.high)}`;
};

/** What the display shows gross when the target is reached; undefined for a line that is weighed in a cup. */
export const grossToExpect = (
  run: RunFacts,
  addition: Addition,
  state: AdditionState,
): Mass | undefined => {
  const vessel = run.vessels.get(vesselNow(run, addition.vessel));
  if (addition.place === 'cup' || vessel === undefined) return undefined;
  return add(add(vessel.tare, vessel.contents), leftToAdd(addition, state));
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

/** `3.4 g over target`, `3.4 g under target`, or `right on target`. */
export const offTarget = (addition: Addition, total: Mass): string => {
  const off = subtract(total, targetOf(addition));
  if (isZero(off)) return 'right on target';
  return isNegative(off)
    ? `${showOn(addition, negate(off))} under target`
    : `${showOn(addition, off)} over target`;
};
