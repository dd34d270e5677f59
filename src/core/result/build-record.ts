import type { Addition, Plan } from '../plan/plan.ts';
import { toExact } from '../quantity/decimal.ts';
import type { SizeText } from '../run/event.ts';
import { scaleText } from '../run/size-text.ts';
import type { ClosedRun } from '../run/state.ts';
import { buildResult } from './build-result.ts';
import {
  type AdditionText,
  type BatchRecord,
  type JournalLine,
  type PlanText,
  recordType,
} from './record.ts';

const additionText = ({
  n,
  step,
  phase,
  material,
  exact,
  window,
  onScale,
  weighings,
  parts,
}: Addition): AdditionText => ({
  n,
  step,
  phase,
  material,
  exact: toExact(exact),
  windowLow: toExact(window.low),
  windowHigh: toExact(window.high),
  scale: onScale?.scale.name ?? '',
  target: onScale?.target === undefined ? '' : toExact(onScale.target),
  low: onScale?.low === undefined ? '' : toExact(onScale.low),
  high: onScale?.high === undefined ? '' : toExact(onScale.high),
  weighings,
  ...(parts && {
    parts: parts.map(({ target, window }) => ({
      target: toExact(target),
      windowLow: toExact(window.low),
      windowHigh: toExact(window.high),
    })),
  }),
});

const planText = (plan: Plan, size: SizeText): PlanText => ({
  size,
  batchMass: toExact(plan.size.batchMass),
  pieces: plan.size.pieces,
  scales: plan.scales.map(scaleText),
  additions: plan.additions.map(additionText),
});

const sizeOf = (run: ClosedRun): SizeText => {
  const first = run.events[0]?.event;
  return first?.type === 'begun' ? first.size : { by: 'sheet' };
};

/** Puts the record of a closed batch together; `lines` are its journal's lines, with their hashes. */
export const buildRecord = (run: ClosedRun, lines: readonly JournalLine[]): BatchRecord => {
  const hash = lines.at(-1)?.['hash'];
  return {
    type: recordType,
    batch: run.batch,
    practice: run.practice,
    program: run.program,
    sheet: {
      name: run.sheet.name,
      code: run.sheet.code,
      revision: run.sheet.revision,
      text: run.sheetText,
    },
    plan: planText(run.begunPlan, sizeOf(run)),
    events: lines,
    journal: { lines: lines.length, hash: typeof hash === 'string' ? hash : '' },
    result: buildResult(run),
  };
};
