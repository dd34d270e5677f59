/**
 * What a sheet comes to today: sizes, targets, windows, the scale for each addition. Made by
 * plan-batch.ts from a sheet, a size and the scales; everything exact.
 */
import type { Mass, Ratio } from '../quantity/quantity.ts';
import type { Step, Tolerance, Vessel } from '../sheet/sheet.ts';

export interface Scale {
  readonly name: string;
  /** In grams, whatever the unit of its display. */
  readonly capacity: Mass;
  /** One division d, in grams. */
  readonly readability: Mass;
  /** The unit of its display: a key of massUnits. */
  readonly unit: string;
}

/** How big today's batch is to be. */
export type SizeWish =
  | { readonly by: 'sheet' }
  | { readonly by: 'pieces'; readonly pieces: number }
  /** Mass weighed in. */
  | { readonly by: 'mass'; readonly mass: Mass }
  | { readonly by: 'factor'; readonly factor: Ratio }
  /** As many whole pieces as these masses of materials allow. */
  | { readonly by: 'have'; readonly have: ReadonlyMap<string, Mass> };

export interface Size {
  /** Everything weighed in, exact. */
  readonly batchMass: Mass;
  readonly pieces: number;
  /** Mass weighed in beyond the whole pieces. */
  readonly remainder: Mass;
  /** Today's batch in nominal batches. */
  readonly factor: Ratio;
  /** With `by: 'have'`: the material that allows no further piece. */
  readonly binds?: string;
}

/** The closed interval in which a reading is accepted. */
export interface Window {
  readonly low: Mass;
  readonly high: Mass;
}

export interface Addition {
  /** Counts the additions of the whole sheet from 1. */
  readonly n: number;
  /** The step's number in the plan. */
  readonly step: number;
  readonly phase: string;
  /** The key of the material in the sheet. */
  readonly material: string;
  readonly name: string;
  readonly vessel: string;
  readonly tolerance: Tolerance;
  /** Exact target mass. */
  readonly exact: Mass;
  readonly window: Window;
  /** Absent where no scale can weigh the line. */
  readonly onScale?: OnScale;
  readonly weighings: number;
  /** Whether the vessel stands on the scale, or a cup does. */
  readonly place: 'vessel' | 'cup';
}

/** The addition in divisions of its scale; absent members mean that no multiple of d lies in the window. */
export interface OnScale {
  readonly scale: Scale;
  readonly target?: Mass;
  readonly low?: Mass;
  readonly high?: Mass;
}

export interface PlannedStep {
  /** Counts all steps of the sheet from 1, the finish last. */
  readonly n: number;
  /** The phase's name; absent for steps of the finish. */
  readonly phase?: string;
  readonly step: Step;
  /** For `add` steps. */
  readonly addition?: Addition;
  /** For `adjust` steps: the most that may go in, at today's size. */
  readonly most?: Mass;
}

export interface PlannedPhase {
  readonly name: string;
  readonly mass: Mass;
  readonly vessel: Vessel;
  readonly after: readonly string[];
  /** Step numbers, in order. */
  readonly steps: readonly number[];
}

export interface Plan {
  readonly size: Size;
  readonly scales: readonly Scale[];
  readonly phases: readonly PlannedPhase[];
  readonly steps: readonly PlannedStep[];
  readonly additions: readonly Addition[];
}
