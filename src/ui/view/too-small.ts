/** What a terminal shows that is too small to work on: nothing is lost, nothing is taken. */
import { leftToAdd, showOn } from '../../core/dialogue/explain.ts';
import { absolute } from '../../core/quantity/quantity.ts';
import { leastColumns, leastRows, type Shown, weighingOf } from './frame.ts';
import { onPaper, type Paper } from './paper.ts';
import { paragraph, type Row } from './row.ts';

export const isTooSmall = (columns: number, rows: number): boolean =>
  columns < leastColumns || rows < leastRows;

export const sizeNotice = (columns: number, rows: number): string =>
  `Window too small: ${columns} x ${rows}. It needs ${leastColumns} x ${leastRows}. Nothing typed is taken until then.`;

const workLines = ({ run, question }: Shown): readonly string[] => {
  const weighing = weighingOf(run, question);
  if (weighing === undefined) return run.phase === 'unbegun' ? [] : [run.batch];
  const { addition, state } = weighing;
  const left = showOn(addition, absolute(leftToAdd(addition, state)));
  return [addition.name, `${left} left`];
};

/** Material, what is left and the size that is needed, in the rows there are. */
export const tooSmallRows = (shown: Shown, columns: number, paper: Paper): readonly Row[] => {
  const lines = [...workLines(shown), sizeNotice(columns, paper.rows + 1), ...shown.notices];
  const rows = lines.flatMap(line =>
    paragraph(paper.clean(line), Math.max(1, paper.columns), 'strong'),
  );
  return onPaper(rows.slice(0, Math.max(1, paper.rows)), paper);
};
