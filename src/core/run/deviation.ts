import { toExact } from '../quantity/decimal.ts';
import { type Instant, secondsBetween } from '../time/instant.ts';
import type { Accepted, HoldEnded, Stamped, StepEvent } from './event.ts';
import { deadlineFrom, plannedStep, stepState, totalOf } from './focus.ts';
import type { Deviation, RunFacts } from './state.ts';

type Found = Pick<Deviation, 'what' | 'found' | 'least' | 'most'>;

const bounds = (least: string | undefined, most: string | undefined) => ({
  ...(least === undefined ? {} : { least }),
  ...(most === undefined ? {} : { most }),
});

const ofAddition = (run: RunFacts, n: number, what: 'under' | 'over'): Found => {
  const window = plannedStep(run, n).addition?.window;
  const found = toExact(totalOf(stepState(run, n)));
  return { what, found, ...(window && bounds(toExact(window.low), toExact(window.high))) };
};

const ofMeasure = (run: RunFacts, n: number): Found => {
  const { step } = plannedStep(run, n);
  const state = stepState(run, n);
  const found = state.kind === 'measure' && state.value !== undefined ? { found: state.value } : {};
  const { least, most } = step.kind === 'measure' ? step : { least: undefined, most: undefined };
  return {
    what: 'out-of-limits',
    ...found,
    ...bounds(least && toExact(least), most && toExact(most)),
  };
};

const secondsSince = (from: Instant | undefined, at: Instant): number =>
  from === undefined ? 0 : secondsBetween(from, at);

const ofOverdue = (run: RunFacts, n: number, at: Instant): Found => {
  const { within } = plannedStep(run, n).step;
  return {
    what: 'overdue',
    found: String(secondsSince(deadlineFrom(run, n), at)),
    ...bounds(undefined, within && String(within.seconds)),
  };
};

const ofAccepted = (run: RunFacts, { step, what }: Accepted, at: Instant): Found => {
  if (what === 'overdue') return ofOverdue(run, step, at);
  return what === 'out-of-limits' ? ofMeasure(run, step) : ofAddition(run, step, what);
};

const ofHold = (run: RunFacts, event: HoldEnded, at: Instant): Found => {
  const { step } = plannedStep(run, event.step);
  const limits =
    step.kind === 'hold'
      ? bounds(String(step.least), step.most === undefined ? undefined : String(step.most))
      : {};
  return {
    what: event.verdict === 'early' ? 'hold-early' : 'hold-late',
    found: String(secondsSince(stepState(run, event.step).startedAt, at)),
    ...limits,
  };
};

const foundBy = (run: RunFacts, event: StepEvent, at: Instant): Found | undefined => {
  if (event.type === 'accepted') return ofAccepted(run, event, at);
  if (event.type === 'hold-ended')
    return event.verdict === 'kept' ? undefined : ofHold(run, event, at);
  if (event.type === 'unwitnessed') return { what: 'unwitnessed' };
  if (event.type !== 'adjust-finished' || event.reason === undefined) return undefined;
  const { most } = plannedStep(run, event.step);
  return { what: 'adjust-over', found: event.total, ...bounds(undefined, most && toExact(most)) };
};

/** The deviation that an event records, if it is one; `run` is the state before it. */
export const deviationOf = (
  run: RunFacts,
  event: StepEvent,
  { at, by }: Stamped,
  instant: Instant,
): Deviation | undefined => {
  const found = foundBy(run, event, instant);
  const reason = 'reason' in event ? (event.reason ?? '') : '';
  return found && { step: event.step, ...found, reason, at, by };
};
