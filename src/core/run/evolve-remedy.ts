/** The batch after it was made bigger, or put back to what it was before that. */

import { chooseScale } from '../plan/choose-scale.ts';
import type { Addition, Plan, PlannedStep } from '../plan/plan.ts';
import { verdictOf, windowOf } from '../plan/window.ts';
import {
  add,
  isPositive,
  type Mass,
  noMass,
  one,
  type Ratio,
  sum,
  times,
} from '../quantity/quantity.ts';
import type { Instant } from '../time/instant.ts';
import { finished } from './evolve-addition.ts';
import { stepState, totalOf } from './focus.ts';
import { massFrom, ratioFrom } from './mass-text.ts';
import { withNewPour } from './pours.ts';
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

const totalIn = (run: OpenRun, { step }: Addition): Mass => totalOf(stepState(run, step));

const targetOf = ({ run, topUps, targets }: Stretching, addition: Addition): Mass | undefined => {
  const topUp = topUps.get(addition.n);
  return topUp === undefined ? targets.get(addition.n) : add(totalIn(run, addition), topUp);
};

// A line keeps its scale, and takes more weighings where it has become too much for it at once.
const stretchAddition = (stretching: Stretching, addition: Addition): Addition => {
  const { run, stretch, closed } = stretching;
  const scale = addition.onScale?.scale;
  if (closed.has(addition.n) || scale === undefined) return addition;
  const exact = times(addition.exact, stretch);
  const window = windowOf(addition.tolerance, exact);
  const { onScale, weighings, parts } = chooseScale(exact, window, [scale]);
  const target = targetOf(stretching, addition);
  const { parts: _before, ...rest } = addition;
  return {
    ...rest,
    exact,
    window,
    weighings,
    ...(parts === undefined || isPositive(totalIn(run, addition)) ? {} : { parts }),
    onScale: { scale, ...onScale, ...(target === undefined ? {} : { target }) },
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
  const { doneAt: _doneAt, lastReading: _last, ...rest } = withNewPour(state, undefined);
  return {
    ...rest,
    status: 'running',
    verdict: 'under',
    isAccepted: false,
    isWitnessDue: false,
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
    stretch: ratioFrom(event.stretch),
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
