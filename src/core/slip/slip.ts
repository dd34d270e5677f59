/** Ways in which a right pour is read wrongly. */
import type { Window } from '../plan/plan.ts';
import type { Display } from '../quantity/display.ts';
import type { Mass } from '../quantity/quantity.ts';
import type { Reading } from '../quantity/reading.ts';

export type SlipKind =
  | 'last-again'
  | 'not-zeroed'
  | 'not-tared'
  | 'ounces-grams'
  | 'kilograms-grams'
  | 'point-off'
  | 'digits-swapped';

/** A reading out of its window, and what is known of the scale it was taken on. */
export interface Situation {
  readonly reading: Pick<Reading, 'typed' | 'mass' | 'unit'>;
  readonly scale: Display;
  readonly target: Mass;
  readonly window: Window;
  /** The person says that the pour is finished: only then can a reading under the window be a slip. */
  readonly isFinished: boolean;
  /** What the line would come to had the scale shown this instead, in the present way of reading. */
  readonly totalIf: (shown: Mass) => Mass;
  /** The tare of what stands on this scale; absent where the way of reading subtracts it already. */
  readonly standing?: Mass;
  /** The net already on this scale before this addition; absent likewise. */
  readonly already?: Mass;
  /** What the scale showed at the reading before. */
  readonly previous?: Mass;
}

export interface Slip {
  readonly kind: SlipKind;
  /** What the reading would have been without the slip; not known for `last-again`. */
  readonly shown?: Mass;
  /** What the line would then come to. */
  readonly mass?: Mass;
  /** What it looks like, as a question. */
  readonly asks: string;
  /** What to do if it is so. */
  readonly todo: string;
}
