/**
 * What a sheet comes to today: sizes, targets, windows, the scale for each addition. Made by
 * plan-batch.ts from a sheet, a size and the scales; everything exact.
 */
import type { Mass, Ratio } from '../quantity/quantity.ts';
import type { Step, Tolerance, Vessel } from '../sheet/sheet.ts';

/** Accuracy classes of OIML R 76-1. */
export type AccuracyClass = 'I' | 'II' | 'III' | 'IIII';

/** `doubtful`: within or beyond, depending on where in their own limits the test masses lie. */
export type CheckVerdict = 'within' | 'doubtful' | 'beyond';

/** A scale as the workshop knows it: what its display says, and of the rest each fact by itself. */
export interface Scale {
  readonly name: string;
  /** In grams, whatever the unit of its display. */
  readonly capacity: Mass;
  /** One division d, in grams. */
  readonly readability: Mass;
  /** The unit of its display: a key of massUnits. */
  readonly unit: string;
  /** The verification interval e; where it is not known, one division stands for it. */
  readonly interval?: Mass;
  readonly accuracyClass?: AccuracyClass;
  /** The workshop's own figure, before any rule. */
  readonly leastLoad?: Mass;
  /** Standard deviation of ten readings of one mass. */
  readonly repeatability?: Mass;
  /** When test masses were last put on it (ISO 8601 with offset), and what came of it. */
  readonly lastCheck?: { readonly at: string; readonly verdict: CheckVerdict };
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
  /** With `by: 'have'`: the material, the vessel or the scale that allows no further piece. */
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
  /** There where it takes several weighings, in their order: the targets add up to the whole one, the windows to the whole window. */
  readonly parts?: readonly WeighingPart[];
  /** Whether the vessel stands on the scale, or a cup does. */
  readonly place: 'vessel' | 'cup';
}

/** One of several weighings of an addition; its target is a multiple of d, its window is exact. */
export interface WeighingPart {
  readonly target: Mass;
  readonly window: Window;
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
