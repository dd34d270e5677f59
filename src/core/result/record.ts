/**
 * The batch record: what record.json holds, in this order of keys. All of it is text, whole numbers and
 * booleans, so its bytes mean the same everywhere. Masses are exact text in grams; shares are per cent
 * with four decimals, yields with two, ties to even.
 */
import type { Grams, ScaleText, SizeText, Verdict } from '../run/event.ts';
import type { Deviation } from '../run/state.ts';

export const recordType = 'application/vnd.tarebook.batch-record+json;version=0';

/** A line of the journal as it stands there, its `hash` included. */
export type JournalLine = Readonly<Record<string, unknown>>;

export interface BatchRecord {
  readonly type: typeof recordType;
  readonly batch: string;
  readonly practice: boolean;
  readonly program: string;
  readonly sheet: {
    readonly name: string;
    readonly code: string;
    readonly revision: number;
    readonly text: string;
  };
  readonly plan: PlanText;
  readonly events: readonly JournalLine[];
  readonly journal: { readonly lines: number; readonly hash: string };
  readonly result: Result;
}

export interface PlanText {
  readonly size: SizeText;
  readonly batchMass: Grams;
  readonly pieces: number;
  readonly scales: readonly ScaleText[];
  readonly additions: readonly AdditionText[];
}

export interface AdditionText {
  readonly n: number;
  readonly step: number;
  readonly phase: string;
  readonly material: string;
  readonly exact: Grams;
  /** The exact window, in which a reading is accepted. */
  readonly windowLow: Grams;
  readonly windowHigh: Grams;
  readonly scale: string;
  /** In divisions of the scale. */
  readonly target: Grams;
  readonly low: Grams;
  readonly high: Grams;
  readonly weighings: number;
  /** There where it is weighed in several weighings, in their order. */
  readonly parts?: readonly {
    readonly target: Grams;
    readonly windowLow: Grams;
    readonly windowHigh: Grams;
  }[];
}

export interface LotMass {
  /** Absent for a material without lots. */
  readonly lot?: string;
  /** Net in the batch. */
  readonly mass: Grams;
  /** Lifted out again. */
  readonly waste: Grams;
}

export interface AdditionResult {
  readonly n: number;
  readonly step: number;
  readonly net: Grams;
  /** Absent when the batch was scrapped before it. */
  readonly verdict?: Verdict;
  readonly lots: readonly LotMass[];
}

export interface MaterialResult {
  readonly material: string;
  readonly name: string;
  readonly mass: Grams;
  /** Per cent of all that was weighed in. */
  readonly share: string;
  readonly lots: readonly LotMass[];
}

export interface LimitResult {
  /** Its number in the sheet, from 1. */
  readonly n: number;
  /** A share in per cent or a ratio, four decimals; absent where it cannot be formed. */
  readonly actual?: string;
  readonly holds: boolean;
}

export interface YieldResult {
  /** Pieces, two decimals. */
  readonly theoretical: string;
  readonly expected: string;
  /** Good pieces and samples kept. */
  readonly actual: number;
  /** Of the theoretical one, per cent. */
  readonly percent: string;
  readonly rejected: readonly { readonly count: number; readonly reason: string }[];
  readonly samples: number;
  readonly leftOver: Grams;
  readonly crumbs: Grams;
  readonly weights: readonly Grams[];
  /** Mean and sample standard deviation of the weights, 0.0001 g; absent without weights, spread with one. */
  readonly mean?: string;
  readonly spread?: string;
}

export interface Result {
  readonly outcome: 'made' | 'rejected';
  readonly reason?: string;
  readonly begun: string;
  readonly closed: string;
  readonly people: readonly string[];
  readonly vessels: readonly {
    readonly vessel: string;
    readonly tare: Grams;
    readonly contents: Grams;
  }[];
  readonly massIn: Grams;
  readonly additions: readonly AdditionResult[];
  readonly adjustments: readonly {
    readonly step: number;
    readonly material: string;
    readonly mass: Grams;
    readonly lots: readonly LotMass[];
  }[];
  readonly materials: readonly MaterialResult[];
  readonly limits: readonly LimitResult[];
  readonly deviations: readonly Deviation[];
  readonly yield?: YieldResult;
  /** `2027-11-30`; absent without `use within` or without an addition. */
  readonly bestBefore?: string;
}
