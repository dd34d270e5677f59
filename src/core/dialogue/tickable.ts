import { plannedStep, stepState } from '../run/focus.ts';
import type { OpenRun } from '../run/state.ts';

const isTick = (run: OpenRun, n: number): boolean => {
  const { kind, within } = plannedStep(run, n).step;
  return (
    (kind === 'wear' || kind === 'ready' || kind === 'do') &&
    within === undefined &&
    stepState(run, n).status === 'waiting'
  );
};

/** The step and those right after it in its phase that can be ticked in one go. */
export const tickable = (run: OpenRun, n: number): readonly number[] => {
  const { phase } = plannedStep(run, n);
  const together: number[] = [n];
  for (let next = n + 1; next <= run.plan.steps.length; next += 1) {
    if (plannedStep(run, next).phase !== phase || !isTick(run, next)) break;
    together.push(next);
  }
  return together;
};
