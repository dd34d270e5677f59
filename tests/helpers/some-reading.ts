import type { RunFacts } from '../../src/core/run/state.ts';

/** One of the readings of additions so far, whether it counts still or not; undefined before the first. */
export const someReading = (
  { events }: RunFacts,
  pick: number,
): { readonly seq: number; readonly step: number } | undefined => {
  const readings = events.flatMap(({ seq, event }) =>
    'reading' in event && 'step' in event ? [{ seq, step: event.step }] : [],
  );
  return readings[pick % Math.max(readings.length, 1)];
};
