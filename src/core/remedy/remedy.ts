/** The ways out of an over-pour as data: each with its numbers, or with the reason why it is none. */

import type { Mass, Ratio } from '../quantity/quantity.ts';
import type { LimitFinding } from '../sheet/limits.ts';

/** In the order in which they are always shown. */
export const remedyKinds = [
  'take-back',
  'least-stretch',
  'whole-pieces',
  'exact-proportion',
  'accept',
  'scrap',
] as const;
export type RemedyKind = (typeof remedyKinds)[number];

export type Remedy = OfferedRemedy | RefusedRemedy;

/** Masses to pour are multiples of the readability of their scale. */
export interface OfferedRemedy {
  readonly kind: RemedyKind;
  readonly possible: true;
  /** New size in present sizes; 1 where the size stays. */
  readonly stretch: Ratio;
  /** To be poured on lines that were poured already, in pouring order. */
  readonly topUps: readonly LineMass[];
  /** New targets of the lines that are not finished; with what is in already. */
  readonly targets: readonly LineMass[];
  /** To be lifted out again. */
  readonly lifts: readonly LineMass[];
  /** All that is weighed in at the finish by the sheet, adjust steps left out; when scrapped, what is in. */
  readonly batchMass: Mass;
  readonly pieces: number;
  /** What a phase yields beyond the pieces that a closed phase has fixed. */
  readonly surplus: readonly PhaseMass[];
  /** Why the least stretch would not do, where a larger one is offered instead. */
  readonly forcedBy?: Reason;
  /** For `accept`: the lines that stay out of their windows. */
  readonly shares: readonly AcceptedShare[];
  /** Every limit at the projected finish, in the sheet's order. */
  readonly limits: readonly LimitFinding[];
}

export interface RefusedRemedy {
  readonly kind: RemedyKind;
  readonly possible: false;
  readonly reason: Reason;
  /** The stretch that the reason speaks of. */
  readonly stretch?: Ratio;
}

export interface LineMass {
  readonly n: number;
  readonly material: string;
  readonly mass: Mass;
}

export interface PhaseMass {
  readonly phase: string;
  readonly mass: Mass;
}

/** A line's share of all additions of the batch: by the sheet, and at the projected finish. */
export interface AcceptedShare {
  readonly n: number;
  readonly material: string;
  readonly planned: Ratio;
  readonly projected: Ratio;
}

interface OfLine {
  readonly n: number;
  readonly material: string;
}

export type Reason =
  | { readonly code: 'nothing-over' }
  /** No line that was poured is out of its window. */
  | { readonly code: 'in-window' }
  /** Something else went into the vessel, or was done in it, since this line was poured. */
  | ({ readonly code: 'added-since' } & OfLine)
  | ({ readonly code: 'vessel-closed' } & OfLine)
  /** A phase whose vessel was emptied has fixed the number of pieces. */
  | { readonly code: 'pieces-fixed'; readonly phase: string }
  /** At this size the line needs a smaller top-up than a person can pour. */
  | ({ readonly code: 'no-room' } & OfLine)
  /** No larger batch brings every line into its window. */
  | { readonly code: 'no-size' }
  | { readonly code: 'limit'; readonly finding: LimitFinding }
  | {
      readonly code: 'vessel-full';
      readonly vessel: string;
      readonly mass: Mass;
      readonly holds: Mass;
    }
  | {
      readonly code: 'stock-short';
      readonly material: string;
      readonly needs: Mass;
      readonly left: Mass;
    }
  /** No number of weighings keeps each between the least load and the capacity of the scale. */
  | ({ readonly code: 'scale-unfit' } & OfLine & { readonly mass: Mass });
