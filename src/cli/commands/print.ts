import { basename } from 'node:path';
import { hasErrors, type Problem } from '../../core/sheet/problem.ts';
import { sheetPages } from '../../workshop/export/sheet-page.ts';
import { exitStatus } from '../exit-status.ts';
import { handOut } from '../hand-out.ts';
import { planSheets } from '../plan-sheets.ts';
import { showProblem } from '../show-problems.ts';
import type { SizeOptions } from '../size-options.ts';
import { Stop } from '../stop.ts';
import { keptOut, type WorkshopOptions } from '../the-workshop.ts';
import { programName } from '../version.ts';

interface PrintOptions extends WorkshopOptions, SizeOptions {
  readonly to: string;
}

/** Findings go to the standard error; one that is an error means that there is nothing to be made, so nothing is printed. */
const tell = (path: string, problems: readonly Problem[]): void => {
  const text = problems.map(each => showProblem(path, each)).join('\n');
  if (hasErrors(problems)) throw new Stop(exitStatus.doesNotHold, text);
  if (text !== '') process.stderr.write(`${text}\n`);
};

/** Batch sheets to be filled in by hand, as one HTML file. Whether scales are checked in time is for the day itself. */
export const print = (named: readonly string[], options: PrintOptions): number => {
  const { planned, scaleCheck } = planSheets(named, options);
  const pages = planned.map(({ path, sheet, plan, problems }) => {
    tell(path, problems);
    return { path: basename(path), sheet, plan, scaleCheck };
  });
  handOut(options.to, sheetPages(pages, programName), keptOut(options));
  return exitStatus.good;
};
