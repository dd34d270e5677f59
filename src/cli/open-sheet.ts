import { readSheet } from '../core/sheet/read-sheet.ts';
import type { Sheet } from '../core/sheet/sheet.ts';
import { exitStatus } from './exit-status.ts';
import { readSheetFile } from './read-sheet-file.ts';
import { showProblem } from './show-problems.ts';
import { Stop } from './stop.ts';

export interface OpenedSheet {
  readonly sheet: Sheet;
  readonly text: string;
}

/** A sheet that must be good to go on. Stops with status 3 or 1, all problems told. */
export const openSheet = (path: string): OpenedSheet => {
  const text = readSheetFile(path);
  const read = readSheet(text);
  if (read.ok) return { sheet: read.sheet, text };
  throw new Stop(
    exitStatus.doesNotHold,
    read.problems.map(each => showProblem(path, each)).join('\n'),
  );
};
