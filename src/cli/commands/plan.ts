import { planBatch } from '../../core/plan/plan-batch.ts';
import { uncheckedScales } from '../../core/plan/unchecked-scales.ts';
import { readRegister, scalesOf } from '../../workshop/register.ts';
import { settingsOf } from '../../workshop/settings.ts';
import { openSheet } from '../open-sheet.ts';
import { planJson } from '../plan-json.ts';
import { planTable } from '../plan-table.ts';
import { statusOf } from '../show-problems.ts';
import { readSizeOptions, type SizeOptions } from '../size-options.ts';
import { orStop, theWorkshop, type WorkshopOptions } from '../the-workshop.ts';

interface PlanOptions extends WorkshopOptions, SizeOptions {
  readonly json?: boolean;
}

/** What a sheet comes to today: a table, or JSON. */
export const plan = (path: string, options: PlanOptions): number => {
  const wish = readSizeOptions(options);
  const { sheet } = openSheet(path);
  const workshop = theWorkshop(options, false);
  const scales = scalesOf(orStop(readRegister(workshop)));
  const { scaleCheck } = orStop(settingsOf(workshop));
  const { plan: today, problems } = planBatch(sheet, wish, scales);
  const unchecked = uncheckedScales(sheet, today, scaleCheck, workshop.now());
  const planned = { plan: today, problems: [...problems, ...unchecked] };
  const text = options.json === true ? planJson(planned) : planTable(path, sheet, planned);
  process.stdout.write(`${text}\n`);
  return statusOf(planned.problems);
};
