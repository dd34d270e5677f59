import { harmlessLines } from '../../core/dialogue/harmless.ts';
import { uncheckedScales } from '../../core/plan/unchecked-scales.ts';
import { clock } from '../clock.ts';
import type { PlannedSheet } from '../picking-list.ts';
import { pickingTable } from '../picking-table.ts';
import { planJson, plansJson } from '../plan-json.ts';
import { planSheets } from '../plan-sheets.ts';
import { planTable } from '../plan-table.ts';
import { statusOf } from '../show-problems.ts';
import type { SizeOptions } from '../size-options.ts';
import type { WorkshopOptions } from '../the-workshop.ts';

interface PlanOptions extends WorkshopOptions, SizeOptions {
  readonly json?: boolean;
}

const planAll = (named: readonly string[], options: PlanOptions): readonly PlannedSheet[] => {
  const { planned, scaleCheck } = planSheets(named, options);
  return planned.map(({ problems, ...rest }) => {
    const unchecked = uncheckedScales(rest.sheet, rest.plan, scaleCheck, clock());
    return { ...rest, problems: [...problems, ...unchecked] };
  });
};

const tableOf = (planned: PlannedSheet): string => planTable(planned.path, planned.sheet, planned);

const severalText = (sheets: readonly PlannedSheet[], json: boolean): string =>
  json ? plansJson(sheets) : [pickingTable(sheets), ...sheets.map(tableOf)].join('\n\n\n');

/** What sheets come to today: for one a table, for several what to fetch and then each table; or JSON. */
export const plan = (named: readonly string[], options: PlanOptions): number => {
  const sheets = planAll(named, options);
  const { json = false } = options;
  const [only, ...others] = sheets;
  const isOne = only !== undefined && others.length === 0;
  const text = isOne ? (json ? planJson(only) : tableOf(only)) : severalText(sheets, json);
  process.stdout.write(`${harmlessLines(text)}\n`);
  return statusOf(sheets.flatMap(each => each.problems));
};
