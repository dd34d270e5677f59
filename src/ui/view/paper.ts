import { toAscii } from '../../core/dialogue/ascii.ts';
import { harmless } from '../../core/dialogue/harmless.ts';
import type { Instant } from '../../core/time/instant.ts';
import { cutMark } from './cells.ts';
import { cutRow, type Row } from './row.ts';

/** What every view draws on: its room, its characters and the time. */
export interface Paper {
  readonly columns: number;
  readonly rows: number;
  /** Text from sheets, lots and people made harmless, and ASCII where the terminal knows no more. */
  readonly clean: (text: string) => string;
  /** The character of which large figures are made. */
  readonly ink: string;
  readonly now: Instant;
}

type PaperSize = Pick<Paper, 'columns' | 'rows'>;

/** Rows as they may be painted: none wider than the paper, no character that it does not know. */
export const onPaper = (rows: readonly Row[], paper: Paper): readonly Row[] =>
  rows.map(each =>
    cutRow(each, paper.columns).map(({ text, look }) => ({ text: paper.clean(text), look })),
  );

/** The paper of a whole terminal: one row less than it has, or Ink would wipe what is above it. */
export const paperOf = ({ columns, rows }: PaperSize, isAscii: boolean, now: Instant): Paper =>
  paperFor({ columns, rows: Math.max(1, rows - 1) }, isAscii, now);

export const paperFor = (size: PaperSize, isAscii: boolean, now: Instant): Paper => ({
  ...size,
  // The mark of a cut must stay one cell wide, or rows would grow that were cut to fit.
  clean: isAscii ? text => toAscii(harmless(text).replaceAll(cutMark, '~')) : harmless,
  ink: isAscii ? '#' : '\u2588',
  now,
});
