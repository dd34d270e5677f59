/** Intents that concern a step which is no addition. */
import { readTerms } from '../quantity/amount.ts';
import { readNumber, toExact } from '../quantity/decimal.ts';
import { add, isLess, isMore, type Mass, type Ratio } from '../quantity/quantity.ts';
import { showDuration } from '../quantity/show.ts';
import type { HoldStep, MeasureStep } from '../sheet/sheet.ts';
import { secondsBetween } from '../time/instant.ts';
import { asked } from './asked.ts';
import { readName } from './decide-batch.ts';
import {
  type Context,
  type Decision,
  follow,
  readReason,
  reasonMissing,
  refuse,
} from './decision.ts';
import type { HoldEnded, Verdict } from './event.ts';
import { canPutLater, plannedStep, stepState, vesselNameOf } from './focus.ts';
import type { IntentOf } from './intent.ts';
import { massOfTerms } from './material-amount.ts';
import { readTally } from './read-tally.ts';
import type { OpenRun } from './state.ts';
import { outOfTurn } from './turn.ts';
import { checkThousands, withPoints } from './typed-number.ts';

/** A vessel is not emptied while something of an earlier step is still to go in: another phase may share it. */
const refuseEmptying = (run: OpenRun, n: number): Decision | undefined => {
  const { step } = plannedStep(run, n);
  const emptied = step.kind === 'tip' ? step.from : step.kind === 'do' ? step.empties : undefined;
  const open = run.plan.steps.find(
    each =>
      each.n < n &&
      each.addition !== undefined &&
      emptied !== undefined &&
      vesselNameOf(run, each.n) === emptied &&
      stepState(run, each.n).status !== 'done',
  );
  return open === undefined
    ? undefined
    : refuse(
        'not-yet',
        `${emptied} still waits for the addition of step ${open.n}.`,
        open.phase === undefined
          ? 'Weigh it first.'
          : `Type turn ${open.phase} and weigh it first.`,
      );
};

export const tick = (run: OpenRun, { step }: IntentOf<'tick'>, context: Context): Decision =>
  outOfTurn(run, step, context, ['tick']) ??
  refuseEmptying(run, step) ??
  follow({ type: 'ticked', step });

export const startHold = (
  run: OpenRun,
  { step }: IntentOf<'start-hold'>,
  context: Context,
): Decision => outOfTurn(run, step, context, ['hold']) ?? follow({ type: 'hold-started', step });

/** How the seconds since a hold was started lie in its bounds. */
export const holdVerdict = (hold: HoldStep, seconds: number): HoldEnded['verdict'] => {
  if (seconds < Number(hold.least)) return 'early';
  return hold.most !== undefined && seconds > Number(hold.most) ? 'late' : 'kept';
};

export const endHold = (
  run: OpenRun,
  { step, reason }: IntentOf<'end-hold'>,
  context: Context,
): Decision => {
  const refusal = outOfTurn(run, step, context, ['hold-running']);
  if (refusal !== undefined) return refusal;
  const hold = plannedStep(run, step).step;
  const { startedAt } = stepState(run, step);
  if (hold.kind !== 'hold' || startedAt === undefined) {
    return refuse('wrong-kind', 'No hold is running.', 'Answer what the step asks.');
  }
  const seconds = secondsBetween(startedAt, context.at);
  const verdict = holdVerdict(hold, seconds);
  if (verdict === 'kept') return follow({ type: 'hold-ended', step, verdict });
  const given = readReason(reason);
  if (given !== undefined) return follow({ type: 'hold-ended', step, verdict, reason: given });
  return verdict === 'early'
    ? refuse(
        'hold-not-kept',
        `Only ${showDuration(seconds)} of at least ${showDuration(hold.least)}.`,
        'Wait, or go on with a reason.',
      )
    : refuse(
        'hold-not-kept',
        `${showDuration(seconds)} are more than ${showDuration(hold.most ?? 0)}.`,
        'Go on with a reason, or scrap the batch.',
      );
};

const measuredVerdict = ({ least, most }: MeasureStep, value: Ratio): Verdict => {
  if (least !== undefined && isLess(value, least)) return 'under';
  return most !== undefined && isMore(value, most) ? 'over' : 'in';
};

export const measure = (
  run: OpenRun,
  { step, typed }: IntentOf<'measure'>,
  context: Context,
): Decision => {
  const refusal = outOfTurn(run, step, context, ['measure', 'measure-out']);
  if (refusal !== undefined) return refusal;
  const planned = plannedStep(run, step).step;
  if (planned.kind !== 'measure')
    return refuse('wrong-kind', 'Nothing is measured here.', 'Answer what the step asks.');
  const text = typed.trim();
  if (text.length > 40)
    return refuse(
      'bad-reading',
      'That is too long for a number.',
      'Type what the instrument shows.',
    );
  const number = text.endsWith(planned.unit) ? text.slice(0, -planned.unit.length) : text;
  const ambiguous = checkThousands(text);
  if (ambiguous !== undefined) return ambiguous;
  const value = readNumber(withPoints(number));
  return value === undefined
    ? refuse(
        'bad-reading',
        `“${text.slice(0, 40)}” is not a number.`,
        `Type the number that the instrument shows, in ${planned.unit}.`,
      )
    : follow({
        type: 'measured',
        step,
        typed: text,
        value: toExact(value),
        verdict: measuredVerdict(planned, value),
      });
};

const readAdjustment = (run: OpenRun, material: string, typed: string): Mass | undefined => {
  // So it is typed; a measure of the sheet's own is never called ml.
  const terms = readTerms(withPoints(typed).replace(/\bml\b/gi, 'mL'));
  const found = run.sheet.materials.get(material);
  return terms === undefined || found === undefined
    ? undefined
    : massOfTerms(terms, found, run.sheet.measures);
};

export const adjust = (
  run: OpenRun,
  { step, typed, confirmed }: IntentOf<'adjust'>,
  context: Context,
): Decision => {
  const refusal = outOfTurn(run, step, context, ['adjust']);
  if (refusal !== undefined) return refusal;
  const planned = plannedStep(run, step).step;
  const state = stepState(run, step);
  if (planned.kind !== 'adjust' || state.kind !== 'adjust') {
    return refuse('wrong-kind', 'Nothing is adjusted here.', 'Answer what the step asks.');
  }
  const ambiguous = checkThousands(typed);
  if (ambiguous !== undefined) return ambiguous;
  const mass = readAdjustment(run, planned.material, typed);
  if (mass === undefined) {
    const units = ['g', 'mL', ...run.sheet.measures.keys()].join(', ');
    return refuse(
      'bad-reading',
      `“${typed.trim().slice(0, 40)}” is not an amount.`,
      `Type what went in with its unit (${units}), for example ${planned.by?.typed ?? '1 mL'}.`,
    );
  }
  const { most } = plannedStep(run, step);
  if (most !== undefined && isMore(add(state.total, mass), most) && confirmed !== true) {
    return refuse(
      'adjust-far-off',
      'With that, more would be in than the sheet allows.',
      'Look at the number and its unit again.',
    );
  }
  const lot = state.lot === undefined ? {} : { lot: state.lot };
  return follow({ type: 'adjusted', step, typed: typed.trim(), mass: toExact(mass), ...lot });
};

export const finishAdjust = (
  run: OpenRun,
  { step, reason }: IntentOf<'finish-adjust'>,
  context: Context,
): Decision => {
  const refusal = outOfTurn(run, step, context, ['adjust', 'lot']);
  if (refusal !== undefined) return refusal;
  const state = stepState(run, step);
  const { most } = plannedStep(run, step);
  if (state.kind !== 'adjust')
    return refuse('wrong-kind', 'Nothing is adjusted here.', 'Answer what the step asks.');
  const total = toExact(state.total);
  if (most === undefined || !isMore(state.total, most))
    return follow({ type: 'adjust-finished', step, total });
  const given = readReason(reason);
  return given === undefined
    ? refuse('adjust-over-most', 'More went in than the sheet allows.', 'Type why.')
    : follow({ type: 'adjust-finished', step, total, reason: given });
};

export const tally = (run: OpenRun, intent: IntentOf<'tally'>, context: Context): Decision => {
  const refusal = outOfTurn(run, intent.step, context, ['tally']);
  if (refusal !== undefined) return refusal;
  const now = asked(run, context.at);
  return now.kind === 'tally' && now.due.item === intent.item
    ? readTally(run, intent)
    : refuse('bad-tally', `Not ${intent.item} now.`, 'Answer what the tally asks.');
};

export const putLater = (
  run: OpenRun,
  { step }: IntentOf<'put-later'>,
  context: Context,
): Decision => {
  const refusal = outOfTurn(run, step, context, ['lot', 'reading', 'vessel']);
  if (refusal !== undefined) return refusal;
  const state = stepState(run, step);
  if (state.kind !== 'addition' || state.total.num !== 0n) {
    return refuse(
      'wrong-kind',
      'Only an addition of which nothing is in yet can be put later.',
      'Finish it.',
    );
  }
  return canPutLater(run, step)
    ? follow({ type: 'put-later', step })
    : refuse(
        'wrong-kind',
        'Nothing else can be weighed before the next step.',
        'Weigh it now, or leave and resume later.',
      );
};

/** A witness is another person than the doer; that they gave their passphrase, the signature shows. */
export const witness = (
  run: OpenRun,
  { step, witness: typed, kid, signature }: IntentOf<'witness'>,
  context: Context,
): Decision => {
  const refusal = outOfTurn(run, step, context, ['witness']);
  if (refusal !== undefined) return refusal;
  const name = readName(typed);
  return name === undefined || name === run.person
    ? refuse(
        'bad-name',
        'A witness is another person than the one who weighed.',
        'Type the name of the witness, or alone.',
      )
    : follow({ type: 'witnessed', step, witness: name, kid, signature });
};

export const goUnwitnessed = (
  run: OpenRun,
  { step, reason }: IntentOf<'go-unwitnessed'>,
  context: Context,
): Decision => {
  const refusal = outOfTurn(run, step, context, ['witness']);
  if (refusal !== undefined) return refusal;
  const given = readReason(reason);
  return given === undefined
    ? reasonMissing()
    : follow({ type: 'unwitnessed', step, reason: given });
};
