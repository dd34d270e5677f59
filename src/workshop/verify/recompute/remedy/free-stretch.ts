/** The least stretch that no line blocks: the blocked intervals side by side, swept once from below. */
import {
  compare,
  dividedBy,
  isLess,
  isPositive,
  larger,
  one,
  type Ratio,
  ratio,
  ratioOf,
  times,
} from '../../../../core/quantity/quantity.ts';
import { toWhole } from '../../../../core/quantity/rounding.ts';
import { blockedFor, type PourLine, whereItReaches } from './pour-line.ts';

const isCounted = ({ place, state, net }: PourLine): boolean =>
  !place.isClosed && state !== 'accepted' && isPositive(net);

/** The least stretch, 1 at least, at which no line is over its window. */
export const noneOver = (lines: readonly PourLine[]): Ratio =>
  lines
    .filter(isCounted)
    .map(line => whereItReaches(line, line.net))
    .reduce((most, each) => larger(most, each), one);

/** The least stretch, 1 at least, at which no line has more in than its target. */
export const inProportion = (lines: readonly PourLine[]): Ratio =>
  lines
    .filter(isCounted)
    .map(({ net, exact }) => ratioOf<'g'>(net, exact))
    .reduce((most, each) => larger(most, each), one);

/** From a stretch on, the first one that no line blocks. */
export type FirstFree = (from: Ratio) => Ratio;

export const firstFreeAmong = (lines: readonly PourLine[]): FirstFree => {
  const blocked = lines
    .map(blockedFor)
    .filter(each => each !== undefined)
    .toSorted((a, b) => compare(a.after, b.after));
  return from =>
    blocked.reduce(
      (at, { after, until }) => (isLess(after, at) && isLess(at, until) ? until : at),
      from,
    );
};

/** Whole pieces of a batch that comes to so many at its present size; `pieces` need not be whole. */
export const piecesAt = (stretch: Ratio, pieces: Ratio): bigint =>
  toWhole(times(stretch, pieces), 'up');

export const stretchTo = (count: bigint, pieces: Ratio): Ratio => dividedBy(ratio(count), pieces);

/** The least whole number of pieces, so many or more, that no line blocks. */
export const firstFreePieces = (firstFree: FirstFree, pieces: Ratio, from: bigint): bigint => {
  const count = piecesAt(firstFree(stretchTo(from, pieces)), pieces);
  return count === from ? count : firstFreePieces(firstFree, pieces, count);
};
