import { cellWidth, fillTo } from '../ui/view/cells.ts';

/** Rows as lines in columns, numbers to the right. */
export const layOut = (
  rows: readonly (readonly string[])[],
  isNumber: (column: number) => boolean,
): readonly string[] => {
  const columns = Math.max(...rows.map(row => row.length));
  const widths = Array.from({ length: columns }, (_, column) =>
    Math.max(...rows.map(row => cellWidth(row[column] ?? ''))),
  );
  const cell = (text: string, column: number): string =>
    fillTo(text, widths[column] ?? 0, isNumber(column) ? 'right' : 'left');
  return rows.map(row => row.map(cell).join('  ').trimEnd());
};
