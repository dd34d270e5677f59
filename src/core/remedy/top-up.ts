/** What a line still takes at a stretch, in divisions of its scale. */
import { toWhole } from '../quantity/rounding.ts';
import { type Fraction, highAt, largerOf, lowAt, type MeasuredLine } from './measured-line.ts';

/** Divisions above the least load that a pour by hand needs as room. */
const roomToPour = 2n;

const isAtPresentSize = ({ num, den }: Fraction): boolean => num === den;

/** A line that a person accepted stays as it is while the size does. */
const isLeftAlone = ({ line }: MeasuredLine, s: Fraction): boolean =>
  line.isClosed || (line.state === 'accepted' && isAtPresentSize(s));

const leastTopUp = (measured: MeasuredLine, s: Fraction, low: bigint): bigint => {
  const { net, division, leastDivisions } = measured;
  return largerOf(leastDivisions, toWhole({ num: low - net * s.den, den: division * s.den }, 'up'));
};

// Nothing at all is no pour, not even where a window reaches down to it.
const needsMore = (measured: MeasuredLine, s: Fraction, low: bigint): boolean => {
  const { line, net } = measured;
  const isUnder = net * s.den < low || (net === 0n && line.state === 'open');
  return isUnder && !isLeftAlone(measured, s);
};

/**
 * The mass up to which the window must reach before the line fits at this stretch, where it does not
 * yet. A top-up needs room for two divisions above the least load; a line with nothing in, only a
 * multiple of the division inside its window.
 */
export const blockedBelow = (measured: MeasuredLine, s: Fraction): bigint | undefined => {
  const low = lowAt(measured, s);
  if (!needsMore(measured, s, low)) return undefined;
  const { net, division, leastDivisions } = measured;
  const least = leastTopUp(measured, s, low);
  const divisions = net === 0n ? least : largerOf(least, leastDivisions + roomToPour);
  const reach = net + divisions * division;
  return reach * s.den > highAt(measured, s) ? reach : undefined;
};

/**
 * Divisions to be poured: nearest to what is missing among those that leave the line in its window,
 * ties to even; none for a line that is in it. It never falls as the stretch rises, not even where the
 * line is blocked and the number only a bound.
 */
export const topUpAt = (measured: MeasuredLine, s: Fraction): bigint => {
  const low = lowAt(measured, s);
  if (!needsMore(measured, s, low)) return 0n;
  const { target, net, division } = measured;
  const step = division * s.den;
  const least = leastTopUp(measured, s, low);
  const most = toWhole({ num: highAt(measured, s) - net * s.den, den: step }, 'down');
  const missing = toWhole({ num: target * s.num - net * s.den, den: step }, 'half-even');
  if (missing <= least || most <= least) return least;
  return missing < most ? missing : most;
};
