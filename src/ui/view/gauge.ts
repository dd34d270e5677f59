/** Places a reading against its window: by position, by word and by sign. */

import type { Window } from '../../core/plan/plan.ts';
import { verdictOf } from '../../core/plan/window.ts';
import {
  add,
  isEqual,
  isMore,
  type Mass,
  ratio,
  ratioOf,
  subtract,
  times,
} from '../../core/quantity/quantity.ts';
import { toWhole } from '../../core/quantity/rounding.ts';
import type { Verdict } from '../../core/run/event.ts';
import { type Row, row, rowWidth, span } from './row.ts';

/** What the gauge is drawn from; `reading` is absent until something was weighed. */
export interface Gauged {
  readonly window: Window;
  readonly target: Mass;
  readonly reading?: Mass;
  /** The reading against its target, already as text with its sign. */
  readonly difference: string;
}

const words: Record<Verdict, string> = { under: 'UNDER', in: 'in window', over: 'OVER' };

/** Where a mass stands on an axis that gives the window its middle third. */
const place = (mass: Mass, { low, high }: Window, cells: number): number => {
  const width = isEqual(low, high) ? times(high, ratio(1n, 100n)) : subtract(high, low);
  const start = subtract(low, width);
  const length = subtract(add(high, width), start);
  if (!isMore(length, subtract(length, length))) return 0;
  const at = times(ratioOf(subtract(mass, start), length), ratio(BigInt(cells - 1)));
  const whole = toWhole(at, 'half-even');
  const last = BigInt(cells - 1);
  return Number(whole < 0n ? 0n : whole > last ? last : whole);
};

// Rounding to a cell must not move a reading across the edge of its window.
const markAt = (gauged: Gauged, reading: Mass, verdict: Verdict, cells: number): number => {
  const at = place(reading, gauged.window, cells);
  if (verdict === 'under') return Math.min(at, place(gauged.window.low, gauged.window, cells) - 1);
  if (verdict === 'over') return Math.max(at, place(gauged.window.high, gauged.window, cells) + 1);
  return at;
};

const axis = ({ window, target }: Gauged, cells: number): string => {
  const low = place(window.low, window, cells);
  const high = place(window.high, window, cells);
  const middle = place(target, window, cells);
  return Array.from({ length: cells }, (_, at) => {
    if (at === low) return '[';
    if (at === high) return ']';
    if (at === middle) return '|';
    return at > low && at < high ? '=' : '-';
  }).join('');
};

const left = 'under ';
const right = ' over';

/** Two rows: the window on its axis, and the mark of the reading with its word. */
export const gaugeRows = (gauged: Gauged, cells: number): readonly Row[] => {
  const room = Math.max(9, Math.min(60, cells - left.length - right.length));
  const line = row(left + axis(gauged, room) + right);
  const { reading } = gauged;
  if (reading === undefined) return [line, row(' '.repeat(left.length) + 'no reading yet')];
  const verdict = verdictOf(reading, gauged.window);
  const at = left.length + markAt(gauged, reading, verdict, room);
  const word = span(
    `${words[verdict]} ${gauged.difference}`,
    verdict === 'in' ? 'strong' : 'alarm',
  );
  const mark = span('^', 'accent');
  const after: Row = [span(' '.repeat(at)), mark, span(' '), word];
  if (rowWidth(after) <= cells) return [line, after];
  const before = at - rowWidth([word]) - 1;
  return [line, [span(' '.repeat(Math.max(0, before))), word, span(' '), mark]];
};
