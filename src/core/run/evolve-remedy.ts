/** The batch after it was made bigger, or put back to what it was before that. */
import type { Addition, Plan, PlannedStep } from '../plan/plan.ts';
import { onScale, windowOf } from '../plan/window.ts';
import { readNumber } from '../quantity/decimal.ts';
import {
  add,
  type Mass,
  noMass,
  one,
  type Ratio,
  ratioOf,
  sum,
  times,
} from '../quantity/quantity.ts';
import { toWhole } from '../quantity/rounding.ts';
import type { Instant } from '../time/instant.ts';
import { finished, newPour } from './evolve-addition.ts';
import { verdictOf } from './judge.ts';
import { massFrom } from './mass-text.ts';
import type { RemedyChosen } from './remedy-event.ts';
import { situationOf } from './situation-of-run.ts';
import type { AdditionState, OpenRun, StepState } from './state.ts';

interface Stretching {
  readonly run: OpenRun;
  readonly stretch: Ratio;
  /** Numbers of the additions whose vessel was emptied: they stay as they are. */
  readonly closed: ReadonlySet<number>;
  readonly topUps: ReadonlyMap<number, Mass>;
  readonly targets: ReadonlyMap<number, Mass>;
}

const massesOf = (lines: RemedyChosen['topUps']): ReadonlyMap<number, Mass> =>
  new Map(lines.map(({ n, mass }) => [n, massFrom(mass)]));

const totalOf = (run: OpenRun, { step }: Addition): Mass => {
  const state = run.steps[step - 1];
  return state?.kind === 'addition' ? state.total : noMass;
};

const targetOf = ({ run, topUps, targets }: Stretching, addition: Addition): Mass | undefined => {
  const topUp = topUps.get(addition.n);
  return topUp === undefined ? targets.get(addition.n) : add(totalOf(run, addition), topUp);
};

const stretchAddition = (stretching: Stretching, addition: Addition): Addition => {
  if (stretching.closed.has(addition.n)) return addition;
  const exact = times(addition.exact, stretching.stretch);
  const window = windowOf(addition.tolerance, exact);
  const base = addition.onScale && onScale(exact, window, addition.onScale.scale);
  const target = targetOf(stretching, addition);
  // At another size the parts would be others: what is over capacity is weighed in several goes.
  const { parts: _parts, ...rest } = addition;
  return {
    ...rest,
    exact,
    window,
    ...(base === undefined ? {} : { onScale: target === undefined ? base : { ...base, target } }),
    weighings:
      base === undefined
        ? 1
        : Number(toWhole(ratioOf<'g'>(window.high, base.scale.capacity), 'up')),
  };
};

const stretchStep = (stretching: Stretching, planned: PlannedStep): PlannedStep => {
  const { addition, most, n } = planned;
  const isDone = stretching.run.steps[n - 1]?.status === 'done';
  return {
    ...planned,
    ...(addition === undefined ? {} : { addition: stretchAddition(stretching, addition) }),
    ...(most === undefined ? {} : { most: times(most, isDone ? one : stretching.stretch) }),
  };
};

const stretchPlan = (stretching: Stretching, { batchMass, pieces }: RemedyChosen): Plan => {
  const { plan } = stretching.run;
  const steps = plan.steps.map(each => stretchStep(stretching, each));
  const additions = steps.flatMap(({ addition }) => addition ?? []);
  return {
    ...plan,
    size: {
      ...plan.size,
      batchMass: massFrom(batchMass),
      pieces,
      remainder: noMass,
      factor: times(plan.size.factor, stretching.stretch),
    },
    phases: plan.phases.map(phase => ({
      ...phase,
      mass: sum(
        noMass,
        additions.filter(each => each.phase === phase.name).map(each => each.exact),
      ),
    })),
    steps,
    additions,
  };
};

const reopened = (state: AdditionState): AdditionState => {
  const { doneAt: _doneAt, before: _before, cup: _cup, lastReading: _last, ...rest } = state;
  return {
    ...rest,
    status: 'running',
    verdict: 'under',
    isAccepted: false,
    isWitnessDue: false,
    pours: newPour(state, undefined),
  };
};

const stateAfter = (
  run: OpenRun,
  state: StepState,
  addition: Addition | undefined,
  topUps: ReadonlyMap<number, Mass>,
  at: Instant,
): StepState => {
  if (state.kind !== 'addition' || addition === undefined) return state;
  if (topUps.has(addition.n)) return reopened(state);
  if (state.isAccepted || state.verdict === undefined) return state;
  const verdict = verdictOf(state.total, addition.window);
  const judged: AdditionState = { ...state, verdict };
  return state.verdict === 'over' && verdict === 'in'
    ? finished(run, addition.step, judged, at)
    : judged;
};

/** Every open and pending line at the new size; lines that need a top-up are open again, in pouring order. */
export const evolveChosen = (run: OpenRun, event: RemedyChosen, at: Instant): OpenRun => {
  const stretching: Stretching = {
    run,
    stretch: readNumber(event.stretch) ?? one,
    closed: new Set(
      situationOf(run)
        .lines.filter(line => line.isClosed)
        .map(line => line.n),
    ),
    topUps: massesOf(event.topUps),
    targets: massesOf(event.targets),
  };
  const plan = stretchPlan(stretching, event);
  const steps = run.steps.map((state, index) =>
    stateAfter(run, state, plan.steps[index]?.addition, stretching.topUps, at),
  );
  const { plan: before, steps: stepsBefore } = run;
  return {
    ...run,
    plan,
    steps,
    remedy: { step: event.step, before: { plan: before, steps: stepsBefore } },
  };
};

/** As it was before the remedy was chosen. */
export const evolveLeft = (run: OpenRun): OpenRun => {
  if (run.remedy === undefined) throw new RangeError('no remedy to leave');
  const { remedy, ...rest } = run;
  return { ...rest, ...remedy.before };
};
