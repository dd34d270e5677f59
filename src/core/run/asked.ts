/** What the run waits for: the one question that the step in hand asks now. */
import type { Addition, PlannedStep } from '../plan/plan.ts';
import type { AdjustStep, TallyStep, TipStep, Vessel } from '../sheet/sheet.ts';
import type { Slip } from '../slip/slip.ts';
import { type Instant, secondsBetween } from '../time/instant.ts';
import { additionInHand, deadlineFrom, plannedStep, stepInHand, stepState } from './focus.ts';
import { presentPour } from './judge.ts';
import { slipOf } from './slip-of-run.ts';
import type { AdditionState, AdjustState, OpenRun, RunFacts, TallyState } from './state.ts';
import { type TallyDue, tallyDue } from './tally.ts';

export type Asked =
  | { readonly kind: 'resume' }
  | { readonly kind: 'close' }
  | { readonly kind: 'overdue'; readonly n: number; readonly seconds: number }
  | { readonly kind: 'vessel'; readonly n: number; readonly vessel: Vessel }
  | { readonly kind: 'lot'; readonly n: number; readonly material: string; readonly known?: string }
  | { readonly kind: 'reading' | 'residue' | 'after' | 'over' | 'witness'; readonly n: number }
  /** A reading over its window that looks like a right pour read wrongly. */
  | { readonly kind: 'slip'; readonly n: number; readonly slip: Slip }
  /** Put right to outside its window when its vessel was emptied already. */
  | { readonly kind: 'gone'; readonly n: number }
  | { readonly kind: 'tick'; readonly n: number }
  | { readonly kind: 'hold' | 'hold-running'; readonly n: number }
  | { readonly kind: 'measure' | 'measure-out'; readonly n: number }
  | { readonly kind: 'adjust'; readonly n: number }
  | { readonly kind: 'tally'; readonly n: number; readonly due: TallyDue };

const vesselOf = (run: RunFacts, { phase }: PlannedStep): Vessel | undefined =>
  run.plan.phases.find(each => each.name === phase)?.vessel;

const vesselNamed = (run: RunFacts, name: string): Vessel =>
  run.plan.phases.find(each => each.vessel.name === name)?.vessel ?? { name };

const unweighed = (run: RunFacts, vessel: Vessel | undefined): vessel is Vessel =>
  vessel !== undefined && !run.vessels.has(vessel.name);

/** Seconds left at that instant until a step's deadline, negative when it has passed; undefined without one. */
export const secondsLeft = (run: RunFacts, n: number, now: Instant): number | undefined => {
  const { step } = plannedStep(run, n);
  const state = stepState(run, n);
  if (step.within === undefined || state.status !== 'waiting' || state.isOverdueAccepted)
    return undefined;
  const from = deadlineFrom(run, n);
  return from && Number(step.within.seconds) - secondsBetween(from, now);
};

const lotDue = (
  run: RunFacts,
  n: number,
  material: string,
  lot: string | undefined,
): Asked | undefined => {
  if (lot !== undefined || run.sheet.materials.get(material)?.hasLots === false) return undefined;
  const known = run.lots.get(material);
  return { kind: 'lot', n, material, ...(known === undefined ? {} : { known }) };
};

const overOrSlip = (run: RunFacts, n: number): Asked => {
  const slip = slipOf(run, n);
  return slip === undefined ? { kind: 'over', n } : { kind: 'slip', n, slip };
};

const ofAddition = (run: RunFacts, addition: Addition, state: AdditionState): Asked => {
  const n = addition.step;
  if (state.isWitnessDue) return { kind: 'witness', n };
  if (state.verdict === 'over') return overOrSlip(run, n);
  const lot = lotDue(run, n, addition.material, presentPour(state).lot);
  if (lot !== undefined) return lot;
  if (state.cup !== undefined && state.lastReading?.part !== 'residue')
    return { kind: 'residue', n };
  return { kind: state.before === undefined ? 'reading' : 'after', n };
};

const ofAdjust = (run: RunFacts, n: number, step: AdjustStep, state: AdjustState): Asked =>
  lotDue(run, n, step.material, state.lot) ?? { kind: 'adjust', n };

const ofTip = (run: RunFacts, n: number, step: TipStep): Asked => {
  const into = vesselNamed(run, step.into);
  return unweighed(run, into) ? { kind: 'vessel', n, vessel: into } : { kind: 'tick', n };
};

const ofTally = (n: number, step: TallyStep, state: TallyState): Asked => ({
  kind: 'tally',
  n,
  due: tallyDue(step, state.entries),
});

const ofStep = (run: RunFacts, planned: PlannedStep): Asked => {
  const { n, step } = planned;
  const state = stepState(run, n);
  const weighed = additionInHand(run, n);
  if (weighed !== undefined || step.kind === 'adjust') {
    const vessel = vesselOf(run, planned);
    if (unweighed(run, vessel)) return { kind: 'vessel', n, vessel };
  }
  if (weighed !== undefined) return ofAddition(run, weighed.addition, weighed.state);
  if (step.kind === 'adjust' && state.kind === 'adjust') return ofAdjust(run, n, step, state);
  if (step.kind === 'tip') return ofTip(run, n, step);
  if (step.kind === 'hold')
    return { kind: state.status === 'running' ? 'hold-running' : 'hold', n };
  if (state.kind === 'measure')
    return { kind: state.verdict === undefined ? 'measure' : 'measure-out', n };
  if (step.kind === 'tally' && state.kind === 'tally') return ofTally(n, step, state);
  return { kind: 'tick', n };
};

/** The next act that an open batch waits for; `now` only matters for deadlines. */
export const asked = (run: OpenRun, now: Instant): Asked => {
  if (run.isPaused) return { kind: 'resume' };
  const gone = run.steps.findIndex(state => state.kind === 'addition' && state.isGone);
  if (gone >= 0) return { kind: 'gone', n: gone + 1 };
  const planned = stepInHand(run);
  if (planned === undefined) return { kind: 'close' };
  const left = secondsLeft(run, planned.n, now);
  return left === undefined || left >= 0
    ? ofStep(run, planned)
    : { kind: 'overdue', n: planned.n, seconds: -left };
};
