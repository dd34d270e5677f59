import type { Deviation } from '../core/run/state.ts';

/** A deviation in a few words: `deviation 2 (step 7, hold early)`. */
export const explainDeviation = ({ step, what }: Deviation, n: number): string =>
  `deviation ${n} (${step === 0 ? 'before the first step' : `step ${step}`}, ${what.replaceAll('-', ' ')})`;
