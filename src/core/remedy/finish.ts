/** The projected finish of a batch at a stretch: every line as one who follows it would leave it. */
import { grams, one, type Ratio, ratio, ratioOf } from '../quantity/quantity.ts';
import { highAt, inUnits, type MeasuredLine, measureLine, unitOf } from './measured-line.ts';
import type { Adjusting, Situation } from './situation.ts';
import { topUpAt } from './top-up.ts';

/** A situation in whole numbers; masses are in parts of a gram, `unit` to the gram. */
export interface Ground {
  readonly situation: Situation;
  readonly unit: bigint;
  readonly lines: readonly MeasuredLine[];
  readonly adjusts: readonly MeasuredAdjusting[];
  /** How many pieces the lines' targets come to; not whole where the batch has a remainder. */
  readonly pieces: Ratio;
}

interface MeasuredAdjusting {
  readonly adjusting: Adjusting;
  readonly net: bigint;
  readonly most: bigint;
}

export interface Finish {
  readonly stretch: Ratio;
  readonly pours: readonly Pour[];
}

export interface Pour {
  readonly measured: MeasuredLine;
  /** What is still to be poured, in divisions of its scale. */
  readonly divisions: bigint;
  /** What is in at the finish. */
  readonly mass: bigint;
}

export const groundOf = (situation: Situation): Ground => {
  const unit = unitOf(situation);
  const lines = situation.lines.map(line => measureLine(line, unit));
  const planned = lines.reduce((total, { target }) => total + target, 0n);
  return {
    situation,
    unit,
    lines,
    pieces: ratioOf<'g'>(grams(ratio(planned, unit)), situation.perPiece),
    adjusts: situation.adjusts.map(adjusting => ({
      adjusting,
      net: inUnits(adjusting.net, unit),
      most: inUnits(adjusting.most, unit),
    })),
  };
};

export const finishAt = (lines: readonly MeasuredLine[], stretch: Ratio): Finish => ({
  stretch,
  pours: lines.map(measured => {
    const divisions = topUpAt(measured, stretch);
    return { measured, divisions, mass: measured.net + divisions * measured.division };
  }),
});

/** Over its window at the present size, and nobody decided to live with it. */
export const isOver = (measured: MeasuredLine): boolean =>
  measured.line.state !== 'accepted' && measured.net > highAt(measured, one);

/** The line with exactly its target in, as the sheet would have had it. */
export const asPlanned = (measured: MeasuredLine): MeasuredLine => {
  const line = { ...measured.line, state: 'open' as const, isClosed: false };
  return { ...measured, net: topUpAt({ ...measured, line, net: 0n }, one) * measured.division };
};

/** What an adjust step may still take at a stretch, in parts as many more as the stretch's denominator. */
export const mayStillTake = (
  { adjusting, net, most }: MeasuredAdjusting,
  { num, den }: Ratio,
): bigint => {
  const left = most * num - net * den;
  return adjusting.isDone || left < 0n ? 0n : left;
};
