/** A batch in the middle of being poured, as far as remedies depend on it: pure data, everything exact. */
import type { Mass } from '../quantity/quantity.ts';
import type { Limit, Tolerance } from '../sheet/sheet.ts';

export interface Situation {
  /** In pouring order. */
  readonly lines: readonly Line[];
  readonly adjusts: readonly Adjusting[];
  /** What is in use, by the key that lines and adjust steps name. */
  readonly vessels: ReadonlyMap<string, Contents>;
  /** What is left now, by material; a material that is not named does not run out. */
  readonly stock: ReadonlyMap<string, Mass>;
  readonly limits: readonly Limit[];
  /** Whole pieces at the present size: those that a closed phase has fixed. */
  readonly pieces: number;
  /** Mass weighed in for one piece, loss included. */
  readonly perPiece: Mass;
}

export interface Line {
  /** Counts the additions of the whole sheet from 1. */
  readonly n: number;
  readonly phase: string;
  readonly material: string;
  readonly vessel: string;
  /** Target at the present size; positive. */
  readonly exact: Mass;
  readonly tolerance: Tolerance;
  /** All that is in of it, over all its weighings. */
  readonly net: Mass;
  /** `open` while nothing or only a part is in and pouring goes on; `accepted` where a person lives with what was read. */
  readonly state: 'open' | 'poured' | 'accepted';
  /** Its vessel was emptied: nothing can be added to it any more. */
  readonly isClosed: boolean;
  /** Nothing was added to its vessel or done in it since. */
  readonly canTakeBack: boolean;
  readonly scale: WeighingRange;
}

/** What the scale that would weigh a top-up can do. */
export interface WeighingRange {
  readonly readability: Mass;
  readonly leastLoad: Mass;
  readonly capacity: Mass;
}

export interface Adjusting {
  readonly phase: string;
  readonly material: string;
  readonly vessel: string;
  readonly net: Mass;
  /** At the present size; it follows the size. */
  readonly most: Mass;
  /** Nothing more will go in. */
  readonly isDone: boolean;
}

export interface Contents {
  readonly name: string;
  readonly mass: Mass;
  readonly holds?: Mass;
  /** The key of the vessel that it will be tipped into; never in a ring. */
  readonly into?: string;
}
