/** The window of a target a second time: each side a share or a mass, and `at least` so much where it is not zero. */
import {
  add,
  isLess,
  isZero,
  type Mass,
  noMass,
  type Ratio,
  subtract,
  times,
  zero,
} from '../../../core/quantity/quantity.ts';
import type { Allowance, Tolerance } from '../../../core/sheet/sheet.ts';

/** One side of a window: the wider of a share of the target and a mass. */
export interface Side {
  readonly share: Ratio;
  readonly mass: Mass;
}

export const sideAgain = (side: Allowance, { floor = noMass }: Tolerance): Side => {
  // Nothing stays nothing: a floor widens only what is there.
  if (side.kind === 'share')
    return { share: side.share, mass: isZero(side.share) ? noMass : floor };
  const isWider = !isZero(side.mass) && isLess(side.mass, floor);
  return { share: zero, mass: isWider ? floor : side.mass };
};

const widthOf = ({ share, mass }: Side, exact: Mass): Mass => {
  const ofTarget = times(exact, share);
  return isLess(ofTarget, mass) ? mass : ofTarget;
};

/** The exact closed window of an exact target. */
export const windowAgain = (
  tolerance: Tolerance,
  exact: Mass,
): { readonly low: Mass; readonly high: Mass } => ({
  low: subtract(exact, widthOf(sideAgain(tolerance.under, tolerance), exact)),
  high: add(exact, widthOf(sideAgain(tolerance.over, tolerance), exact)),
});
