/** How large the batch must get, so that what was poured over lies in its window again. */
import { dividedBy, one, type Ratio, ratio, times } from '../quantity/quantity.ts';
import { toWhole } from '../quantity/rounding.ts';
import { type Fraction, isBelow, type MeasuredLine, whereHighIs } from './measured-line.ts';
import { blockedBelow } from './top-up.ts';

// A window of a division or more blocks one interval of stretches at most, so that as many rounds as
// there are lines suffice; narrower ones may never fit together.
const roundsBeyondLines = 1000;

const largest = (all: Iterable<Fraction>, start: Ratio): Ratio => {
  let most: Fraction = start;
  for (const each of all) if (isBelow(most, each)) most = each;
  return most === start ? start : ratio(most.num, most.den);
};

const weighedIn = (lines: readonly MeasuredLine[]): readonly MeasuredLine[] =>
  lines.filter(({ line, net }) => !line.isClosed && line.state !== 'accepted' && net > 0n);

/** s₀: the least stretch, not under 1, at which no line is over its window. */
export const windowsReach = (lines: readonly MeasuredLine[]): Ratio =>
  largest(
    weighedIn(lines).map(each => whereHighIs(each, each.net)),
    one,
  );

/** The stretch, not under 1, at which what is in of each line is its target at most. */
export const exactProportion = (lines: readonly MeasuredLine[]): Ratio =>
  largest(
    weighedIn(lines).map(({ net, target }) => ({ num: net, den: target })),
    one,
  );

/**
 * The least stretch from `start` on that no line blocks; undefined where there is none. At `start` no
 * line may be over its window.
 */
export const raise = (lines: readonly MeasuredLine[], start: Ratio): Ratio | undefined => {
  let s = start;
  for (let rounds = lines.length + roundsBeyondLines; rounds > 0; rounds -= 1) {
    const until: Fraction[] = [];
    for (const each of lines) {
      const reach = blockedBelow(each, s);
      if (reach === undefined) continue;
      until.push(whereHighIs(each, reach));
    }
    if (until.length === 0) return s;
    s = largest(until, s);
  }
  return undefined;
};

/** The least whole number of pieces that makes a stretch of at least so much; `pieces` is the present size. */
export const piecesFor = (stretch: Ratio, pieces: Ratio): bigint =>
  toWhole(times(stretch, pieces), 'up');

/** The stretch to so many pieces. */
export const toPieces = (count: bigint, pieces: Ratio): Ratio => dividedBy(ratio(count), pieces);

/** The least number of whole pieces, `start` or more, that no line blocks. */
export const raiseToPieces = (
  lines: readonly MeasuredLine[],
  pieces: Ratio,
  start: bigint,
): bigint | undefined => {
  let count = start;
  for (let rounds = lines.length + roundsBeyondLines; rounds > 0; rounds -= 1) {
    const raised = raise(lines, toPieces(count, pieces));
    if (raised === undefined) return undefined;
    const next = piecesFor(raised, pieces);
    if (next === count) return count;
    count = next;
  }
  return undefined;
};
