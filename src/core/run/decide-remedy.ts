/** Choosing a stretch of the batch, leaving it again, and answering whether a reading was only read wrongly. */
import { toExact, toFraction } from '../quantity/decimal.ts';
import { explainReason } from '../remedy/explain-reason.ts';
import type { Remedy } from '../remedy/remedy.ts';
import { asked } from './asked.ts';
import {
  type Context,
  type Decision,
  follow,
  readReason,
  reasonMissing,
  refuse,
} from './decision.ts';
import type { IntentOf } from './intent.ts';
import type { RemediesOffered } from './remedy-event.ts';
import { lineMassText, remedyText } from './remedy-text.ts';
import { remediesOf } from './situation-of-run.ts';
import { slipOf } from './slip-of-run.ts';
import type { OpenRun } from './state.ts';
import { outOfTurn } from './turn.ts';

const offered = (step: number, remedies: readonly Remedy[]): RemediesOffered => ({
  type: 'remedies-offered',
  step,
  remedies: remedies.map(remedyText),
});

/** What is offered about the over-pour in hand, to be written with the decision about it; empty where there is none. */
export const offeredInHand = (run: OpenRun, { at }: Context): readonly RemediesOffered[] => {
  const now = asked(run, at);
  return now.kind === 'over' ? [offered(now.n, remediesOf(run))] : [];
};

export const chooseRemedy = (
  run: OpenRun,
  { step, kind, reason }: IntentOf<'choose-remedy'>,
  context: Context,
): Decision => {
  const refusal = outOfTurn(run, step, context, ['over']);
  if (refusal !== undefined) return refusal;
  const remedies = remediesOf(run);
  const remedy = remedies.find(each => each.kind === kind);
  if (remedy === undefined || !remedy.possible) {
    const why =
      remedy === undefined ? 'There is no such remedy.' : explainReason(run.sheet, remedy.reason);
    return refuse('remedy-impossible', why, 'Choose another way out.');
  }
  const given = readReason(reason);
  if (given === undefined) return reasonMissing();
  return follow(offered(step, remedies), {
    type: 'remedy-chosen',
    step,
    kind,
    stretch: toFraction(remedy.stretch),
    topUps: remedy.topUps.map(lineMassText),
    targets: remedy.targets.map(lineMassText),
    batchMass: toExact(remedy.batchMass),
    pieces: remedy.pieces,
    reason: given,
  });
};

export const leaveRemedy = (run: OpenRun): Decision =>
  run.remedy === undefined
    ? refuse(
        'remedy-under-way',
        'There is no remedy that could be left.',
        'Answer the step in hand.',
      )
    : follow({ type: 'remedy-left', step: run.remedy.step });

export const answerSlip = (
  run: OpenRun,
  { step, answer }: IntentOf<'answer-slip'>,
  context: Context,
): Decision => {
  const refusal = outOfTurn(run, step, context, ['slip', 'reading', 'after']);
  if (refusal !== undefined) return refusal;
  const slip = slipOf(run, step);
  const state = run.steps[step - 1];
  const about = state?.kind === 'addition' ? state.lastReading?.seq : undefined;
  return slip === undefined || about === undefined
    ? refuse('no-slip', 'The last reading looks like no slip.', 'Answer the step in hand.')
    : follow({ type: 'slip-answered', step, about, slip: slip.kind, answer });
};
