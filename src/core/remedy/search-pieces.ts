/** The first whole-piece stretch that holds everything, where the least stretch does not. */
import { type Ratio, ratio } from '../quantity/quantity.ts';
import { type Checked, checkAt } from './check-finish.ts';
import { type LimitVerdict, partAndWhole } from './check-limits.ts';
import { type Finish, finishAt, type Ground } from './finish.ts';
import { type Fraction, largerOf } from './measured-line.ts';
import { exactProportion, piecesFor, raiseToPieces, toPieces } from './stretch.ts';

const atPieces = ({ lines, pieces }: Ground, count: bigint): Finish =>
  finishAt(lines, toPieces(count, pieces));

const twice = ratio(2n);

/** The sign of a − share · b. */
const against = (a: Fraction, share: Ratio, b: Fraction): bigint =>
  a.num * share.den * b.den - share.num * b.num * a.den;

/**
 * The first count of pieces after `count`, up to `last`, at which a broken limit may hold again. Masses
 * only grow with the stretch: while not even a later whole would let the present part in, or not even a
 * later part is enough for the present whole, the limit stays broken.
 */
const leap = (
  ground: Ground,
  { limit, full }: LimitVerdict,
  count: bigint,
  last: bigint,
): bigint => {
  const amounts = (at: bigint) => partAndWhole(ground, atPieces(ground, at), limit, full);
  const [part, whole] = amounts(count);
  const { most, least } = limit;
  const mayHold = (at: bigint): boolean => {
    const [laterPart, laterWhole] = amounts(at);
    return (
      (most === undefined || against(part, most, laterWhole) <= 0n) &&
      (least === undefined || against(laterPart, least, whole) >= 0n)
    );
  };
  let [below, above] = [count, last + 1n];
  while (above - below > 1n) {
    const middle = (below + above) / 2n;
    if (mayHold(middle)) above = middle;
    else below = middle;
  }
  return above;
};

/**
 * Tries whole pieces from `start` on until a vessel or the stock ends it; where neither does, up to twice
 * the present batch, or to exact proportion if that is more: beyond it shares hardly change.
 */
export const findPieces = (
  ground: Ground,
  start: bigint,
  kept: ReadonlySet<number>,
): Checked | undefined => {
  const { lines, pieces } = ground;
  const last = largerOf(
    largerOf(start, piecesFor(twice, pieces)),
    piecesFor(exactProportion(lines), pieces),
  );
  let next = start;
  while (next <= last) {
    const count = raiseToPieces(lines, pieces, next);
    if (count === undefined || count > last) return undefined;
    const checked = checkAt(ground, toPieces(count, pieces), kept);
    if (checked.reason === undefined) return checked;
    const { bound, brokenLimit } = checked.findings;
    if (bound !== undefined) return undefined;
    next = brokenLimit === undefined ? count + 1n : leap(ground, brokenLimit, count, last);
  }
  return undefined;
};
