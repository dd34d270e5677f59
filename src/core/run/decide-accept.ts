/** Living with a departure from the sheet, with a reason. */
import { offeredInHand } from './decide-remedy.ts';
import {
  type Context,
  type Decision,
  follow,
  readReason,
  reasonMissing,
  refuse,
} from './decision.ts';
import { explainLimit } from './explain-limit.ts';
import { stepState } from './focus.ts';
import type { Intent } from './intent.ts';
import { noScale, type Poured, pouredInto } from './poured.ts';
import { projectedLimits } from './project.ts';
import type { OpenRun } from './state.ts';
import { outOfTurn } from './turn.ts';

const acceptAddition = (
  run: OpenRun,
  { addition, state }: Poured,
  reason: string,
  context: Context,
): Decision => {
  const before = projectedLimits(run, addition.step, addition.exact);
  const broken = projectedLimits(run, addition.step, state.total).find(
    (limit, index) => !limit.holds && before[index]?.holds === true,
  );
  // Of what was emptied out nothing can be changed any more: it is only recorded.
  if (broken !== undefined && !state.isGone) {
    const instead =
      state.verdict === 'over' ? 'Choose another way out.' : 'Pour more, or scrap the batch.';
    return refuse(
      'limit-would-break',
      `That would break a limit: ${explainLimit(run.sheet, broken)}.`,
      instead,
    );
  }
  return follow(...offeredInHand(run, context), {
    type: 'accepted',
    step: addition.step,
    what: state.verdict === 'over' ? 'over' : 'under',
    reason,
  });
};

export const accept = (
  run: OpenRun,
  intent: Intent & { readonly type: 'accept' },
  context: Context,
): Decision => {
  const { step } = intent;
  const reason = readReason(intent.reason);
  const refusal = outOfTurn(run, step, context, [
    'over',
    'reading',
    'after',
    'measure-out',
    'lot',
    'gone',
  ]);
  const isOverdue = refusal?.ok === false && refusal.refusal.code === 'overdue';
  if (refusal !== undefined && !isOverdue) return refusal;
  if (reason === undefined) return reasonMissing();
  if (isOverdue) return follow({ type: 'accepted', step, what: 'overdue', reason });
  if (stepState(run, step).kind === 'measure')
    return follow({ type: 'accepted', step, what: 'out-of-limits', reason });
  const poured = pouredInto(run, step);
  return poured === undefined ? noScale() : acceptAddition(run, poured, reason, context);
};
