import type { DraftLimit } from './read-limit.ts';
import type { DraftPhase } from './read-phase.ts';
import type { DraftAdd, DraftStep } from './read-step.ts';
import type { DraftSheet } from './sheet-reader.ts';

export const isThere = <T>(value: T | undefined): value is T => value !== undefined;

export const phasesOf = (draft: DraftSheet): readonly DraftPhase[] =>
  (draft.phases ?? []).filter(isThere);

export const finishOf = (draft: DraftSheet): readonly DraftStep[] =>
  (draft.finish ?? []).filter(isThere);

export const limitsOf = (draft: DraftSheet): readonly DraftLimit[] =>
  (draft.limits ?? []).filter(isThere);

export const stepsOf = (phase: DraftPhase): readonly DraftStep[] =>
  (phase.steps ?? []).filter(isThere);

export const additionsOf = (phase: DraftPhase): readonly DraftAdd[] =>
  stepsOf(phase).filter(step => step.kind === 'add');

/** A step with the phase that it belongs to; steps of the finish have none. */
export interface StepInPhase {
  readonly phase?: DraftPhase;
  readonly step: DraftStep;
}

/** All steps in the order of the file. */
export const allSteps = (draft: DraftSheet): readonly StepInPhase[] => [
  ...phasesOf(draft).flatMap(phase => stepsOf(phase).map(step => ({ phase, step }))),
  ...finishOf(draft).map(step => ({ step })),
];

/** Whether every phase and step could be read, so that what is not found is not there. */
export const isWhole = (draft: DraftSheet): boolean =>
  draft.phases !== undefined &&
  draft.phases.every(phase => phase?.steps?.every(isThere) === true) &&
  (!draft.has.has('finish') || draft.finish?.every(isThere) === true);
