import type { AccuracyClass, Scale } from '../../src/core/plan/plan.ts';
import { scaleOf } from './plan.ts';
import { mass } from './sheet.ts';

/** An invented scale: `factsOf('2000', '0.1', { accuracyClass: 'II', e: '0.1' })`, all in grams. */
export const factsOf = (
  capacity: string,
  readability: string,
  known: {
    readonly accuracyClass?: AccuracyClass;
    readonly e?: string;
    readonly leastLoad?: string;
    readonly s?: string;
    readonly name?: string;
  } = {},
): Scale => {
  const { accuracyClass, e, leastLoad, s, name = 'bench' } = known;
  return {
    ...scaleOf(name, capacity, readability),
    ...(accuracyClass && { accuracyClass }),
    ...(e === undefined ? {} : { interval: mass(e) }),
    ...(leastLoad === undefined ? {} : { leastLoad: mass(leastLoad) }),
    ...(s === undefined ? {} : { repeatability: mass(s) }),
  };
};
