/** What the batch will hold when all that is left goes in as planned, and which limits that keeps. */

import type { PlannedStep } from '../plan/plan.ts';
import { larger, type Mass, noMass } from '../quantity/quantity.ts';
import { evaluateLimits, type LimitFinding, type Portion } from '../sheet/limits.ts';
import { totalOf } from './focus.ts';
import type { RunFacts, StepState } from './state.ts';

/** How full the adjust steps that are not finished are thought: as they are, or at their most. */
type Adjusts = 'as they are' | 'at their most';

const massOfStep = (planned: PlannedStep, state: StepState, adjusts: Adjusts): Mass => {
  if (state.kind === 'addition' && planned.addition !== undefined) {
    return state.status === 'done' || state.isAccepted
      ? state.total
      : larger(state.total, planned.addition.exact);
  }
  if (state.kind !== 'adjust') return noMass;
  return state.status === 'done' || adjusts === 'as they are'
    ? state.total
    : larger(state.total, planned.most ?? noMass);
};

const materialOf = ({ step }: PlannedStep): string | undefined =>
  step.kind === 'add' || step.kind === 'adjust' ? step.material : undefined;

const portionsOf = (
  run: RunFacts,
  massOf: (planned: PlannedStep, state: StepState) => Mass,
): readonly Portion[] =>
  run.plan.steps.flatMap((planned, index) => {
    const material = materialOf(planned);
    const state = run.steps[index];
    if (material === undefined || state === undefined) return [];
    const { phase } = planned;
    const mass = massOf(planned, state);
    return [{ material, mass, ...(phase === undefined ? {} : { phase }) }];
  });

/**
 * Each limit at the projected finish, with `mass` in at step `n`; it holds only if it does whether the
 * adjust steps take nothing more or their most.
 */
export const projectedLimits = (run: RunFacts, n: number, mass: Mass): readonly LimitFinding[] => {
  const limitsAt = (adjusts: Adjusts): readonly LimitFinding[] =>
    evaluateLimits(
      run.sheet.limits,
      portionsOf(run, (planned, state) =>
        planned.n === n ? mass : massOfStep(planned, state, adjusts),
      ),
    );
  const atMost = limitsAt('at their most');
  return limitsAt('as they are').map((verdict, index) => {
    const full = atMost[index];
    return verdict.holds && full !== undefined && !full.holds ? full : verdict;
  });
};

/** All masses as they are in the vessels now. */
export const massesIn = (run: RunFacts): readonly Portion[] =>
  portionsOf(run, (_planned, state) => totalOf(state));
