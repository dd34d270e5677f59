/** How large the batch must get: correction.md, remedy 2. */
import { one, type Ratio, ratio } from '../quantity/quantity.ts';
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

/** The least number of whole pieces that make a stretch of `start` or more, and that no line blocks. */
export const raiseToPieces = (
  lines: readonly MeasuredLine[],
  pieces: number,
  start: bigint,
): bigint | undefined => {
  const n = BigInt(pieces);
  let count = start;
  for (let rounds = lines.length + roundsBeyondLines; rounds > 0; rounds -= 1) {
    const raised = raise(lines, ratio(count, n));
    if (raised === undefined) return undefined;
    const next = (raised.num * n + raised.den - 1n) / raised.den;
    if (next === count) return count;
    count = next;
  }
  return undefined;
};
