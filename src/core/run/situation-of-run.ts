/** An open batch as remedies see it. */
import { buildSituation, type Progress } from '../remedy/build-situation.ts';
import { remedies } from '../remedy/remedies.ts';
import type { Remedy } from '../remedy/remedy.ts';
import type { Line, Situation } from '../remedy/situation.ts';
import { canTakeBack } from './judge.ts';
import type { AdditionState, OpenRun } from './state.ts';

const stateOf = ({ status, verdict, isAccepted, isWitnessDue }: AdditionState): Line['state'] => {
  if (isAccepted) return 'accepted';
  return status === 'done' || isWitnessDue || verdict === 'over' ? 'poured' : 'open';
};

const progressOf = (run: OpenRun): Progress => {
  const lines: [number, Pick<Line, 'net' | 'state' | 'canTakeBack'>][] = [];
  for (const addition of run.plan.additions) {
    const state = run.steps[addition.step - 1];
    if (state?.kind !== 'addition') continue;
    const takesBack = state.verdict === 'over' && canTakeBack(run, addition, state);
    lines.push([addition.n, { net: state.total, state: stateOf(state), canTakeBack: takesBack }]);
  }
  const numbered = run.steps.map((state, index) => ({ n: index + 1, state }));
  return {
    lines: new Map(lines),
    adjusts: new Map(
      numbered.flatMap(({ n, state }) =>
        state.kind === 'adjust' ? [[n, { net: state.total, isDone: state.status === 'done' }]] : [],
      ),
    ),
    done: new Set(numbered.flatMap(({ n, state }) => (state.status === 'done' ? [n] : []))),
    closedPhases: new Set(),
    // What is in stock is not known to the run yet: no material runs out.
    stock: new Map(),
  };
};

export const situationOf = (run: OpenRun): Situation =>
  buildSituation(run.sheet, run.plan, progressOf(run));

/** What can still be done about an over-pour, in the fixed order. */
export const remediesOf = (run: OpenRun): readonly Remedy[] => remedies(situationOf(run));
