import type { Scale } from '../plan/plan.ts';
import type { Mass } from '../quantity/quantity.ts';

/** Accuracy classes of OIML R 76-1. */
export const accuracyClasses = ['I', 'II', 'III', 'IIII'] as const;
export type AccuracyClass = (typeof accuracyClasses)[number];

/** What a workshop may know of a scale beyond what its display says; each fact by itself. */
export interface ScaleFacts extends Scale {
  /** The verification interval e; where it is not known, one division stands for it. */
  readonly interval?: Mass;
  readonly accuracyClass?: AccuracyClass;
  /** The workshop's own figure, before any rule. */
  readonly leastLoad?: Mass;
  /** Standard deviation of ten readings of one mass. */
  readonly repeatability?: Mass;
}

/** The verification interval e, or the readability where none is known. */
export const intervalOf = ({ interval, readability }: ScaleFacts): Mass => interval ?? readability;
