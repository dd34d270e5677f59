import { planBatch } from '../plan/plan-batch.ts';
import { hasErrors } from '../sheet/problem.ts';
import { readSheet } from '../sheet/read-sheet.ts';
import { type Decision, follow, refuse } from './decision.ts';
import type { Intent } from './intent.ts';
import { scaleText, sizeText } from './size-text.ts';

/** A batch begins only with a sheet and a plan without errors; it keeps the sheet's whole text. */
export const beginBatch = (intent: Intent & { readonly type: 'begin' }): Decision => {
  const read = readSheet(intent.sheet);
  if (!read.ok)
    return refuse('bad-sheet', 'The sheet cannot be read.', 'Run tarebook check on it.');
  const { plan, problems } = planBatch(read.sheet, intent.size, intent.scales);
  if (hasErrors(problems)) {
    const [first] = problems.filter(each => each.severity === 'error');
    return refuse(
      'bad-sheet',
      first?.message ?? 'The plan has errors.',
      first?.mend ?? 'Run tarebook plan on it.',
    );
  }
  return follow({
    type: 'begun',
    batch: intent.batch,
    practice: intent.practice,
    program: intent.program,
    sheet: intent.sheet,
    size: sizeText(intent.size, plan.size.pieces),
    scales: plan.scales.map(scaleText),
  });
};
