/** Where the maker is: steps keep their order inside a phase, phases may interleave. */
import type { Addition, PlannedStep } from '../plan/plan.ts';
import { type Mass, noMass } from '../quantity/quantity.ts';
import type { Instant } from '../time/instant.ts';
import type { AdditionState, RunFacts, StepState } from './state.ts';

/** The name by which the steps after all phases are turned to. */
const finishPhase = 'finish';

export const plannedStep = (run: RunFacts, n: number): PlannedStep => {
  const planned = run.plan.steps[n - 1];
  if (planned === undefined) throw new RangeError(`the plan has no step ${n}`);
  return planned;
};

export const stepState = (run: RunFacts, n: number): StepState => {
  const state = run.steps[n - 1];
  if (state === undefined) throw new RangeError(`the run has no step ${n}`);
  return state;
};

/** What is in of an addition or an adjustment; nothing of any other step. */
export const totalOf = (state: StepState): Mass =>
  state.kind === 'addition' || state.kind === 'adjust' ? state.total : noMass;

/** When the step was done from which a step's deadline counts; undefined without one, or before. */
export const deadlineFrom = (run: RunFacts, n: number): Instant | undefined => {
  const { within } = plannedStep(run, n).step;
  const from = within && run.plan.steps.find(each => each.step.name === within.of);
  return from && stepState(run, from.n).doneAt;
};

/** The vessel in which the contents of that one are now: itself, until it is tipped. */
export const vesselNow = (run: RunFacts, name: string): string => {
  const into = run.vessels.get(name)?.tippedInto;
  return into === undefined ? name : vesselNow(run, into);
};

/** The vessel in which what a step does now lands; undefined for a step after all phases. */
export const vesselNameOf = (run: RunFacts, n: number): string | undefined => {
  const { phase } = plannedStep(run, n);
  const name = run.plan.phases.find(each => each.name === phase)?.vessel.name;
  return name === undefined ? undefined : vesselNow(run, name);
};

const isDone = (run: RunFacts, n: number): boolean => stepState(run, n).status === 'done';

/** All phases in the sheet's order, the finish last, each with its step numbers. */
export const phasesOf = (
  run: RunFacts,
): readonly {
  readonly name: string;
  readonly after: readonly string[];
  readonly steps: readonly number[];
}[] => [
  ...run.plan.phases,
  {
    name: finishPhase,
    after: run.plan.phases.map(phase => phase.name),
    steps: run.plan.steps.filter(step => step.phase === undefined).map(step => step.n),
  },
];

export const isPhaseDone = (run: RunFacts, name: string): boolean =>
  phasesOf(run).every(phase => phase.name !== name || phase.steps.every(n => isDone(run, n)));

/** The phases in which something can be done now, in the sheet's order. */
export const workablePhases = (run: RunFacts): readonly string[] =>
  phasesOf(run)
    .filter(phase => phase.after.every(name => isPhaseDone(run, name)))
    .map(phase => phase.name)
    .filter(name => !isPhaseDone(run, name));

// A line that was put later comes back, at the latest, before the next step that is no addition:
// what is mixed or pressed then must be all there.
const nextOf = (run: RunFacts, steps: readonly number[]): number | undefined => {
  const open = steps.filter(n => !isDone(run, n));
  const other = open.findIndex(n => plannedStep(run, n).addition === undefined);
  const additions = other < 0 ? open : open.slice(0, other);
  return additions.find(n => !run.later.has(n)) ?? open[0];
};

/** The step in hand; undefined when every step is done. */
export const stepInHand = (run: RunFacts): PlannedStep | undefined => {
  const workable = workablePhases(run);
  const name =
    run.turnedTo !== undefined && workable.includes(run.turnedTo) ? run.turnedTo : workable[0];
  const n = nextOf(run, phasesOf(run).find(phase => phase.name === name)?.steps ?? []);
  return n === undefined ? undefined : plannedStep(run, n);
};

/** Whether another addition of the same stretch of additions could be weighed first. */
export const canPutLater = (run: RunFacts, n: number): boolean => {
  const later = { ...run, later: new Set([...run.later, n]) };
  return stepInHand(later)?.n !== n;
};

/** The addition of a step with its state; undefined for a step of another kind. */
export const additionInHand = (
  run: RunFacts,
  n: number,
): { readonly addition: Addition; readonly state: AdditionState } | undefined => {
  const { addition } = plannedStep(run, n);
  const state = stepState(run, n);
  return addition === undefined || state.kind !== 'addition' ? undefined : { addition, state };
};
