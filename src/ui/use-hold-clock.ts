import { useEffect } from 'react';
import { plannedStep, stepState } from '../core/run/focus.ts';
import { type Instant, secondsBetween } from '../core/time/instant.ts';
import type { ScreenState, ScreenStore } from './screen-store.ts';

/** Seconds until a running hold has lasted its least; undefined while no hold runs. */
const secondsToLeast = ({ run, question }: ScreenState, now: Instant): number | undefined => {
  if (run.phase === 'unbegun' || question.kind !== 'hold-running') return undefined;
  if (question.step === undefined) return undefined;
  const { step } = plannedStep(run, question.step);
  const { startedAt } = stepState(run, question.step);
  if (step.kind !== 'hold' || startedAt === undefined) return undefined;
  return Number(step.least) - secondsBetween(startedAt, now);
};

/** Repaints once a second while a hold runs, and rings once when its least is reached. */
export const useHoldClock = (
  store: ScreenStore,
  state: ScreenState,
  looks: { readonly now: () => Instant; readonly ring: () => void },
): void => {
  const isRunning = state.question.kind === 'hold-running';
  useEffect(() => {
    if (!isRunning) return;
    let left = secondsToLeast(store.state(), looks.now());
    const timer = setInterval(() => {
      const before = left;
      left = secondsToLeast(store.state(), looks.now());
      if (before !== undefined && before > 0 && left !== undefined && left <= 0) looks.ring();
      store.tick();
    }, 1000);
    return () => clearInterval(timer);
  }, [isRunning, store, looks]);
};
