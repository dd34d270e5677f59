import {
  add,
  isLess,
  isMore,
  isNegative,
  isPositive,
  isZero,
  larger,
  type Mass,
  noMass,
  type Ratio,
  ratioOf,
  smaller,
  subtract,
  times,
} from '../quantity/quantity.ts';
import { toMultiple } from '../quantity/rounding.ts';
import type { AddStep, Allowance, Sheet, Tolerance } from '../sheet/sheet.ts';
import type { Addition, OnScale, Scale, Window } from './plan.ts';

// A line without any tolerance has a problem of its own already.
const exactly: Tolerance = {
  under: { kind: 'mass', mass: noMass },
  over: { kind: 'mass', mass: noMass },
};

/** The tolerance of a line: its own, else the sheet's. */
export const toleranceOf = (sheet: Sheet, step: AddStep): Tolerance =>
  step.tolerance ?? sheet.tolerance ?? exactly;

const sideOf = (allowance: Allowance, exact: Mass, floor: Mass | undefined): Mass => {
  const side = allowance.kind === 'mass' ? allowance.mass : times(exact, allowance.share);
  return floor === undefined || isZero(side) ? side : larger(side, floor);
};

/** The exact closed window round an exact target. A floor widens each side that is not zero. */
export const windowOf = ({ under, over, floor }: Tolerance, exact: Mass): Window => ({
  low: subtract(exact, sideOf(under, exact, floor)),
  high: add(exact, sideOf(over, exact, floor)),
});

/**
 * The window in divisions of a scale: its least and greatest multiple of d, and between them the one
 * nearest to the exact target, ties to even. Only the scale when no multiple lies inside.
 */
export const onScale = (exact: Mass, window: Window, scale: Scale): OnScale => {
  const d = scale.readability;
  const low = toMultiple(window.low, d, 'up');
  const high = toMultiple(window.high, d, 'down');
  if (isMore(low, high)) return { scale };
  return {
    scale,
    low,
    high,
    target: smaller(larger(toMultiple(exact, d, 'half-even'), low), high),
  };
};

/** The target in divisions of the scale, or the exact one where there is none. */
export const targetOf = ({ onScale, exact }: Addition): Mass => onScale?.target ?? exact;

/** Width of the exact window in divisions of that readability. */
export const divisionsIn = ({ low, high }: Window, readability: Mass): Ratio =>
  ratioOf<'g'>(subtract(high, low), readability);

/** How far a net mass lies outside its window: negative under it, zero inside. */
export const beyondWindow = (net: Mass, { low, high }: Window): Mass => {
  const over = subtract(net, high);
  const under = subtract(net, low);
  return isPositive(over) ? over : isNegative(under) ? under : noMass;
};

/** Where a net mass lies; exactly on an edge of the window is in it. */
export const verdictOf = (net: Mass, { low, high }: Window): 'under' | 'in' | 'over' =>
  isLess(net, low) ? 'under' : isMore(net, high) ? 'over' : 'in';
