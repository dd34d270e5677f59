import { harmlessLines } from '../../core/dialogue/harmless.ts';
import { planBatch } from '../../core/plan/plan-batch.ts';
import { buildSituation } from '../../core/remedy/build-situation.ts';
import { remedies } from '../../core/remedy/remedies.ts';
import { hasErrors } from '../../core/sheet/problem.ts';
import { exitStatus } from '../exit-status.ts';
import { openSheet } from '../open-sheet.ts';
import { remedyJson } from '../remedy-json.ts';
import { type RemedyOptions, readRemedyOptions } from '../remedy-options.ts';
import { remedyTable } from '../remedy-table.ts';
import { showProblem } from '../show-problems.ts';
import { readSizeOptions, type SizeOptions } from '../size-options.ts';
import { Stop } from '../stop.ts';
import { scalesInUse, theWorkshop, type WorkshopOptions } from '../the-workshop.ts';

interface Options extends WorkshopOptions, SizeOptions, RemedyOptions {
  readonly json?: boolean;
}

/** What can still be done about an over-pour in a batch kept on paper: a table, or JSON. */
export const remedy = (path: string, options: Options): number => {
  const wish = readSizeOptions(options);
  const { sheet } = openSheet(path);
  const scales = scalesInUse(theWorkshop(options, false));
  const { plan, problems } = planBatch(sheet, wish, scales);
  if (hasErrors(problems)) {
    const errors = problems.filter(({ severity }) => severity === 'error');
    throw new Stop(exitStatus.doesNotHold, errors.map(each => showProblem(path, each)).join('\n'));
  }
  const progress = readRemedyOptions(plan, options);
  const found = remedies(buildSituation(sheet, plan, progress));
  const text =
    options.json === true ? remedyJson(sheet, found) : remedyTable(sheet, plan, progress, found);
  process.stdout.write(`${harmlessLines(text)}\n`);
  return exitStatus.good;
};
