/**
 * Where what went in at a step is now. A vessel counts anew each time it is emptied; what was in it
 * is gone for good, or in the vessel that it was tipped into.
 */
import type { NumberedStep } from '../plan-again.ts';

export interface Place {
  /** The vessel's name and how often it is emptied before. */
  readonly key: string;
  readonly vessel: string;
  /** Emptied, and not into another vessel: nothing can be added any more. */
  readonly isClosed: boolean;
}

interface Emptying {
  readonly n: number;
  readonly vessel: string;
  readonly into?: string;
}

/** The steps of the phases that empty a vessel; those of the finish come after every pour. */
const emptyingsIn = (steps: readonly NumberedStep[]): readonly Emptying[] =>
  steps.flatMap(({ n, phase, step }) => {
    if (phase === undefined) return [];
    if (step.kind === 'tip') {
      return [{ n, vessel: step.from, into: step.into }];
    }
    return step.kind === 'do' && step.empties !== undefined ? [{ n, vessel: step.empties }] : [];
  });

export interface Places {
  /** Where what goes in at that step is, or will be before the vessel is emptied the next time. */
  readonly at: (n: number, vessel: string) => Place;
  /** Where that will be tipped; undefined where it stays, or is taken out for good. */
  readonly next: (place: Place) => Place | undefined;
}

export const placesIn = (
  steps: readonly NumberedStep[],
  isDone: (n: number) => boolean,
): Places => {
  const emptyings = emptyingsIn(steps);
  const timesBefore = (n: number, vessel: string): number =>
    emptyings.filter(each => each.vessel === vessel && each.n < n).length;
  const emptiedBy = (vessel: string, times: number): Emptying | undefined =>
    emptyings.filter(each => each.vessel === vessel)[times];
  const present = (vessel: string, times: number): Place => {
    const emptying = emptiedBy(vessel, times);
    const isEmpty = emptying !== undefined && isDone(emptying.n);
    return isEmpty && emptying.into !== undefined
      ? present(emptying.into, timesBefore(emptying.n, emptying.into))
      : { key: `${times} ${vessel}`, vessel, isClosed: isEmpty };
  };
  return {
    at: (n, vessel) => present(vessel, timesBefore(n, vessel)),
    next: ({ key, vessel, isClosed }) => {
      const emptying = isClosed ? undefined : emptiedBy(vessel, Number.parseInt(key, 10));
      return emptying?.into === undefined
        ? undefined
        : present(emptying.into, timesBefore(emptying.n, emptying.into));
    },
  };
};
