/** A painted row as data: spans of text, each with a look. Nothing here knows a terminal. */
import { cellWidth, cutTo, wrapTo } from './cells.ts';

/** `accent` is the one colour; `alarm` is inverse. No look is ever the only sign of a state. */
export type Look = 'plain' | 'strong' | 'accent' | 'alarm';

export interface Span {
  readonly text: string;
  readonly look: Look;
}

export type Row = readonly Span[];

export const blank: Row = [];

export const span = (text: string, look: Look = 'plain'): Span => ({ text, look });

export const row = (text: string, look: Look = 'plain'): Row => [span(text, look)];

export const rowWidth = (spans: Row): number =>
  spans.reduce((sum, each) => sum + cellWidth(each.text), 0);

export const textOf = (spans: Row): string => spans.map(each => each.text).join('');

/** At most so many cells; the last span that fits partly is cut. */
export const cutRow = (spans: Row, cells: number): Row => {
  let room = cells;
  const kept: Span[] = [];
  for (const each of spans) {
    if (room <= 0) break;
    const text = cutTo(each.text, room);
    kept.push({ ...each, text });
    room -= cellWidth(text);
  }
  return kept;
};

/** Filled with blanks to so many cells. */
const fillRow = (spans: Row, cells: number): Row => {
  const cut = cutRow(spans, cells);
  return [...cut, span(' '.repeat(Math.max(0, cells - rowWidth(cut))))];
};

/** Left and right ends of one row; the left one gives way. */
export const spread = (left: Row, right: Row, cells: number): Row => {
  const room = cells - rowWidth(right);
  return room <= 0 ? cutRow(right, cells) : [...fillRow(left, room), ...right];
};

/** Two columns of rows side by side. */
export const sideBySide = (
  left: readonly Row[],
  right: readonly Row[],
  leftCells: number,
): readonly Row[] =>
  Array.from({ length: Math.max(left.length, right.length) }, (_, at) => [
    ...fillRow(left[at] ?? blank, leftCells),
    ...(right[at] ?? blank),
  ]);

/** So many rows without anything; none where the count is below one. */
export const blanks = (count: number): readonly Row[] =>
  Array.from({ length: Math.max(0, count) }, () => blank);

/** Wrapped text, all of one look. */
export const paragraph = (text: string, cells: number, look: Look = 'plain'): readonly Row[] =>
  wrapTo(text, cells).map(line => row(line, look));

/** Pieces that are never broken, as many to a row as fit. */
export const flow = (pieces: readonly Row[], cells: number): readonly Row[] => {
  const rows: Row[] = [];
  let line: Row = blank;
  for (const piece of pieces) {
    const longer = line.length === 0 ? piece : [...line, span('   '), ...piece];
    if (rowWidth(longer) <= cells || line.length === 0) line = longer;
    else {
      rows.push(line);
      line = piece;
    }
  }
  return line.length === 0 ? rows : [...rows, line];
};

/** At most so many rows; where some are left out, the last one says so. */
export const atMostTold = (rows: readonly Row[], count: number): readonly Row[] =>
  rows.length <= count
    ? rows
    : [...rows.slice(0, count - 1), row('... help shows the rest', 'accent')].slice(
        0,
        Math.max(0, count),
      );
