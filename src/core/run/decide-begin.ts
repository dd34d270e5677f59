import { planBatch } from '../plan/plan-batch.ts';
import { uncheckedScales } from '../plan/unchecked-scales.ts';
import { hasErrors } from '../sheet/problem.ts';
import { readSheet } from '../sheet/read-sheet.ts';
import type { ScaleCheck } from '../sheet/sheet.ts';
import { type Context, type Decision, follow, readReason, refuse } from './decision.ts';
import type { Begun } from './event.ts';
import type { Intent } from './intent.ts';
import { scaleText, sizeText } from './size-text.ts';

const scaleCheckText = (asked: ScaleCheck | undefined): Pick<Begun, 'scaleCheck'> =>
  asked === undefined
    ? {}
    : { scaleCheck: { within: Number(asked.within), otherwise: asked.otherwise } };

/** A batch begins only with a sheet and a plan without errors; it keeps the sheet's whole text. */
export const beginBatch = (
  intent: Intent & { readonly type: 'begin' },
  { at }: Context,
): Decision => {
  const read = readSheet(intent.sheet);
  if (!read.ok)
    return refuse('bad-sheet', 'The sheet cannot be read.', 'Run tarebook check on it.');
  const { plan, problems: planned } = planBatch(read.sheet, intent.size, intent.scales);
  // Who practises need not own a scale.
  const problems = intent.practice
    ? planned
    : [...planned, ...uncheckedScales(read.sheet, plan, intent.scaleCheck, at)];
  if (hasErrors(problems)) {
    const [first] = problems.filter(each => each.severity === 'error');
    return refuse(
      'bad-sheet',
      first?.message ?? 'The plan has errors.',
      first?.mend ?? 'Run tarebook plan on it.',
    );
  }
  const unchecked = problems.find(each => each.code === 'scale-unchecked');
  const reason = readReason(intent.scaleReason);
  if (unchecked !== undefined && reason === undefined) {
    return refuse(
      'scale-unchecked',
      unchecked.message,
      `${unchecked.mend} Or begin with a reason.`,
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
    ...scaleCheckText(read.sheet.scaleCheck ?? intent.scaleCheck),
    ...(unchecked === undefined || reason === undefined ? {} : { scaleReason: reason }),
  });
};
