/** Questions of the steps that are no additions. */
import { toExact } from '../quantity/decimal.ts';
import { showDuration, showGrams } from '../quantity/show.ts';
import type { Asked } from '../run/asked.ts';
import { holdVerdict } from '../run/decide-step.ts';
import { plannedStep, stepState } from '../run/focus.ts';
import type { OpenRun } from '../run/state.ts';
import type { HoldStep, MeasureStep, Step } from '../sheet/sheet.ts';
import { type Instant, secondsBetween } from '../time/instant.ts';
import { everywhere } from './commands.ts';
import type { Question } from './conversation.ts';
import { acceptWord, question } from './question.ts';
import { tickable } from './tickable.ts';

const tickText = (step: Step): string => {
  if (step.kind === 'wear') return `Put on: ${step.items.join(', ')}.`;
  if (step.kind === 'ready') return `Check: ${step.items.join(', ')}.`;
  if (step.kind === 'tip') return `Tip ${step.from} into ${step.into}.`;
  return step.kind === 'do' ? step.text : '';
};

export const askTick = (run: OpenRun, n: number): Question => {
  const { step } = plannedStep(run, n);
  const together = tickable(run, n);
  const all =
    together.length > 1
      ? [{ word: 'all', does: `ticks this and the next ${together.length - 1} together` }]
      : [];
  return question('tick', `${tickText(step)} Enter when done.`, 'enter', {
    step: n,
    enter: 'ticks it',
    commands: [...all, ...everywhere],
  });
};

const holdRange = ({ least, most }: HoldStep): string =>
  most === undefined
    ? `at least ${showDuration(least)}`
    : `${showDuration(least)} to ${showDuration(most)}`;

const holdOf = (run: OpenRun, n: number): HoldStep => {
  const { step } = plannedStep(run, n);
  if (step.kind !== 'hold') throw new RangeError(`step ${n} is no hold`);
  return step;
};

export const askHold = (run: OpenRun, n: number): Question => {
  const hold = holdOf(run, n);
  return question('hold', `${hold.why} (${holdRange(hold)}) Enter when it begins.`, 'enter', {
    step: n,
    enter: 'starts the time',
  });
};

export const askRunningHold = (run: OpenRun, n: number, now: Instant): Question => {
  const hold = holdOf(run, n);
  const { startedAt } = stepState(run, n);
  const seconds = startedAt === undefined ? 0 : secondsBetween(startedAt, now);
  const isKept = holdVerdict(hold, seconds) === 'kept';
  return question(
    'hold-running',
    `${hold.why} (${holdRange(hold)}) Running for ${showDuration(seconds)}. Enter when it ends.`,
    'enter',
    {
      step: n,
      enter: 'ends the hold',
      commands: [
        ...(isKept ? [] : [{ word: 'go on', does: 'ends it now all the same, with a reason' }]),
        ...everywhere,
      ],
    },
  );
};

const boundsText = ({ least, most, unit }: MeasureStep): string =>
  [least && `at least ${toExact(least)} ${unit}`, most && `at most ${toExact(most)} ${unit}`]
    .filter(Boolean)
    .join(', ');

export const askMeasure = (run: OpenRun, n: number, isOut: boolean): Question => {
  const { step } = plannedStep(run, n);
  if (step.kind !== 'measure') throw new RangeError(`step ${n} measures nothing`);
  const bounds = boundsText(step);
  const ask = isOut
    ? `${step.what} is out of its limits (${bounds}). Measure again, or accept it with a reason.`
    : `Measure ${step.what} in ${step.unit}${bounds === '' ? '' : ` (${bounds})`} and type the number.`;
  return question(isOut ? 'measure-out' : 'measure', ask, 'quantity', {
    step: n,
    commands: [
      ...(isOut ? [acceptWord('goes on out of the limits, with a reason')] : []),
      ...everywhere,
    ],
  });
};

export const askAdjust = (run: OpenRun, n: number): Question => {
  const { step, most } = plannedStep(run, n);
  const state = stepState(run, n);
  if (step.kind !== 'adjust' || state.kind !== 'adjust' || most === undefined) {
    throw new RangeError(`step ${n} adjusts nothing`);
  }
  const name = run.sheet.materials.get(step.material)?.name ?? step.material;
  const by = step.by === undefined ? '' : `, about ${step.by.typed} at a time`;
  return question(
    'adjust',
    `Add ${name} little by little${by}, until ${step.until}. In so far ${showGrams(state.total, 1)}, at most ${showGrams(most, 1)}. Type each amount with its unit, then done.`,
    'quantity',
    { step: n, commands: [{ word: 'done', does: 'it is right: goes on' }, ...everywhere] },
  );
};

const tallyText: Readonly<Record<string, string>> = {
  good: 'How many good pieces came out?',
  rejected: 'How many were rejected, and why? One reason a line (2 cracked), then 0.',
  samples: 'How many pieces are kept as samples? 0 for none.',
  'left over': 'How much mix is left over? 0 for none.',
  crumbs: 'How much do the crumbs weigh? 0 for none.',
};

export const askTally = (
  run: OpenRun,
  { n, due }: Asked & { readonly kind: 'tally' },
): Question => {
  const { step } = plannedStep(run, n);
  const weigh = step.kind === 'tally' ? step.weigh : 0;
  const ask =
    tallyText[due.item] ?? `Weigh piece ${due.piece ?? 1} of ${weigh} and type the display.`;
  return question('tally', ask, 'quantity', { step: n });
};
