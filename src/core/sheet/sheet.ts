/**
 * A batch sheet as read: readonly data, everything exact. What a sheet may say, and every rule on it,
 * stands in read-sheet.ts and the files beside it.
 */
import type { Density, Mass, Ratio, Volume } from '../quantity/quantity.ts';

/** Where in its file a thing stands; both count from 1. */
export interface Place {
  readonly line: number;
  readonly column: number;
}

export interface Sheet {
  readonly name: string;
  /** Batches of the sheet are numbered by it: `CDR` gives CDR-2027-001. */
  readonly code: string;
  readonly revision: number;
  readonly makes: Makes;
  readonly tolerance?: Tolerance;
  readonly useWithin?: Period;
  readonly scaleCheck?: ScaleCheck & { readonly place: Place };
  readonly contact?: 'rinse-off' | 'leave-on';
  /** The sheet's own measures: a pump, a scoop. */
  readonly measures: ReadonlyMap<string, Volume>;
  readonly cautions: readonly string[];
  readonly materials: ReadonlyMap<string, Material>;
  readonly limits: readonly Limit[];
  readonly phases: readonly Phase[];
  readonly finish: readonly Step[];
  /** A sheet is in percentages throughout, or absolute throughout. */
  readonly basis: 'percentages' | 'absolute';
}

export interface Makes {
  readonly piece: string;
  readonly count: number;
  readonly fill: Mass;
  /** Of what is weighed in. */
  readonly loss: Ratio;
  readonly place: Place;
}

/** The scales of a batch are to be checked at the latest so many seconds before it; else it is a deviation, or refused. */
export interface ScaleCheck {
  readonly within: bigint;
  readonly otherwise: 'deviation' | 'refuse';
}

export interface Period {
  readonly count: number;
  readonly unit: 'day' | 'week' | 'month';
}

/** One side of a tolerance: a share of the exact target, or a mass. */
export type Allowance =
  | { readonly kind: 'share'; readonly share: Ratio }
  | { readonly kind: 'mass'; readonly mass: Mass };

export interface Tolerance {
  readonly under: Allowance;
  readonly over: Allowance;
  /** Neither side is ever narrower than this; a side that is not given stays zero. */
  readonly floor?: Mass;
}

export interface Material {
  readonly key: string;
  readonly name: string;
  readonly inci?: string;
  readonly density?: Density;
  /** Volume of a drop. */
  readonly drop?: Volume;
  /** Mass of one piece, where it is counted. */
  readonly each?: Mass;
  readonly hazard?: string;
  readonly allergens: ReadonlyMap<string, Ratio>;
  /** False for `lot: none`: no lot is asked for. */
  readonly hasLots: boolean;
  readonly place: Place;
}

export type Limit = ShareLimit | RatioLimit;

interface LimitBase {
  readonly least?: Ratio;
  readonly most?: Ratio;
  readonly place: Place;
}

/** Bounds the share of a material in a phase or, without `phase`, in the batch. */
export interface ShareLimit extends LimitBase {
  readonly kind: 'share';
  readonly material: string;
  readonly phase?: string;
}

/** Bounds how many times the second material goes into the first, over the whole batch. */
export interface RatioLimit extends LimitBase {
  readonly kind: 'ratio';
  readonly material: string;
  readonly to: string;
}

export interface Vessel {
  readonly name: string;
  readonly tare?: Mass;
  readonly holds?: Mass;
}

export interface Phase {
  readonly name: string;
  /** Of the batch's mass; absent in an absolute sheet. */
  readonly share?: Ratio;
  readonly vessel: Vessel;
  /** Not before these phases are done. */
  readonly after: readonly string[];
  readonly portions: number;
  readonly rework?: { readonly of: string; readonly most: Ratio };
  readonly steps: readonly Step[];
  readonly place: Place;
}

export type Amount =
  /** Of the phase's mass. */
  | { readonly kind: 'share'; readonly share: Ratio }
  /** What is left of the phase to 100 %. */
  | { readonly kind: 'rest' }
  /** Absolute, at the sheet's nominal size; volumes and counts are already weights. */
  | { readonly kind: 'mass'; readonly mass: Mass; readonly typed: string };

export type Step =
  | AddStep
  | WearStep
  | ReadyStep
  | DoStep
  | MeasureStep
  | AdjustStep
  | HoldStep
  | TipStep
  | TallyStep;

export interface StepBase {
  /** By which `within` of a later step names it. */
  readonly name?: string;
  readonly within?: Deadline;
  readonly witness: boolean;
  readonly place: Place;
}

/** At the latest so many seconds after the named step was done. */
export interface Deadline {
  readonly seconds: bigint;
  readonly of: string;
}

export interface AddStep extends StepBase {
  readonly kind: 'add';
  readonly material: string;
  readonly amount: Amount;
  readonly tolerance?: Tolerance;
}

export interface WearStep extends StepBase {
  readonly kind: 'wear';
  readonly items: readonly string[];
}

export interface ReadyStep extends StepBase {
  readonly kind: 'ready';
  readonly items: readonly string[];
}

export interface DoStep extends StepBase {
  readonly kind: 'do';
  readonly text: string;
  /** The vessel that is empty after it: nothing can be topped up any more. */
  readonly empties?: string;
}

export interface MeasureStep extends StepBase {
  readonly kind: 'measure';
  readonly what: string;
  readonly unit: string;
  readonly least?: Ratio;
  readonly most?: Ratio;
}

export interface AdjustStep extends StepBase {
  readonly kind: 'adjust';
  readonly material: string;
  /** A hint only: each entry counts as it is read. */
  readonly by?: Measured;
  /** At the sheet's nominal size; it follows the size of the batch. */
  readonly most: Measured;
  readonly until: string;
}

/** An amount as the sheet says it, and what it weighs. */
export interface Measured {
  readonly typed: string;
  readonly mass: Mass;
}

export interface HoldStep extends StepBase {
  readonly kind: 'hold';
  /** Seconds. */
  readonly least: bigint;
  readonly most?: bigint;
  readonly why: string;
}

export interface TipStep extends StepBase {
  readonly kind: 'tip';
  readonly from: string;
  readonly into: string;
}

export interface TallyStep extends StepBase {
  readonly kind: 'tally';
  /** How many pieces are weighed one by one. */
  readonly weigh: number;
}
