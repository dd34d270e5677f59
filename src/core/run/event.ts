/**
 * What happened in a batch: the only vocabulary of the journal. An event is kept exactly as it stands
 * on disk: masses are exact text in grams (`312.4`, `171000/49`), instants ISO 8601 with offset. Once
 * released, an event never changes its meaning. To add one, see DEVELOPERS.md.
 */

import type { AccuracyClass, CheckVerdict } from '../plan/plan.ts';
import type { RemediesOffered, RemedyChosen, RemedyLeft, SlipAnswered } from './remedy-event.ts';

/** Exact mass in grams, as text that `readNumber` reads. */
export type Grams = string;

export const ways = ['net', 'gross', 'cup', 'difference'] as const;
export type Way = (typeof ways)[number];
/** What the typed number is: the display; the cup after it was tipped; the container before and after. */
export type Part = 'display' | 'residue' | 'before' | 'after';
export type Verdict = 'under' | 'in' | 'over';

export interface ScaleText {
  readonly name: string;
  readonly capacity: Grams;
  readonly readability: Grams;
  readonly unit: string;
  readonly interval?: Grams;
  readonly accuracyClass?: AccuracyClass;
  readonly leastLoad?: Grams;
  readonly repeatability?: Grams;
  readonly lastCheck?: { readonly at: string; readonly verdict: CheckVerdict };
}

/** The check of its scales that a batch was begun under, in seconds before it. */
export interface ScaleCheckText {
  readonly within: number;
  readonly otherwise: 'deviation' | 'refuse';
}

export type SizeText =
  | { readonly by: 'sheet' }
  | { readonly by: 'pieces'; readonly pieces: number }
  | { readonly by: 'mass'; readonly mass: Grams }
  | { readonly by: 'factor'; readonly factor: string };

/** A number typed from a display: the text, the unit it was read in, the exact grams, the scale. */
export interface Typed {
  readonly typed: string;
  readonly unit: string;
  readonly mass: Grams;
  readonly scale: string;
}

export interface Judged {
  /** Net of the present pour. */
  readonly net: Grams;
  /** Net of the whole addition so far. */
  readonly total: Grams;
  /** Of this weighing alone, where the addition is planned as several. */
  readonly part?: Verdict;
  readonly verdict: Verdict;
}

export interface Begun {
  readonly type: 'begun';
  readonly batch: string;
  readonly practice: boolean;
  readonly program: string;
  /** The batch's own whole copy of its sheet. */
  readonly sheet: string;
  readonly size: SizeText;
  readonly scales: readonly ScaleText[];
  /** The sheet's, else the workshop's; absent where neither asks for one. */
  readonly scaleCheck?: ScaleCheckText;
  /** Why the batch began although a scale was not checked in time. */
  readonly scaleReason?: string;
}

export interface VesselWeighed {
  readonly type: 'vessel-weighed';
  readonly vessel: string;
  readonly tare: Grams;
  /** Absent where the sheet's tare was taken. */
  readonly reading?: Typed;
}

export interface LotIdentified {
  readonly type: 'lot-identified';
  readonly step: number;
  readonly material: string;
  readonly lot: string;
}

/** The scale was set to zero again: what is poured from here on adds to the net. */
export interface Tared {
  readonly type: 'tared';
  readonly step: number;
}

export type ReadingTaken = {
  readonly type: 'reading-taken';
  readonly step: number;
  readonly way: Way;
  readonly part: Part;
  readonly reading: Typed;
  readonly vessel: string;
  readonly lot?: string;
  /** Absent for `before`, which weighs nothing in yet. */
  readonly judged?: Judged;
};

export interface TakenBack {
  readonly type: 'taken-back';
  readonly step: number;
  readonly way: Way;
  readonly reading: Typed;
  /** Lifted out: waste, not stock. */
  readonly lifted: Grams;
  readonly judged: Judged;
}

/** A mistyped reading put right; the wrong one stays in its own event. Judged is the pour that it measures, which may be an earlier one. */
export interface Amended {
  readonly type: 'amended';
  readonly step: number;
  /** The number of the event that was mistyped. */
  readonly amends: number;
  readonly reading: Typed;
  readonly judged?: Judged;
  readonly reason: string;
}

/** A departure from the sheet that a person decided to live with. */
export interface Accepted {
  readonly type: 'accepted';
  readonly step: number;
  readonly what: 'under' | 'over' | 'out-of-limits' | 'overdue';
  readonly reason: string;
}

export interface Ticked {
  readonly type: 'ticked';
  readonly step: number;
}

export interface HoldStarted {
  readonly type: 'hold-started';
  readonly step: number;
}

export interface HoldEnded {
  readonly type: 'hold-ended';
  readonly step: number;
  readonly verdict: 'kept' | 'early' | 'late';
  /** There unless the hold was kept. */
  readonly reason?: string;
}

export interface Measured {
  readonly type: 'measured';
  readonly step: number;
  readonly typed: string;
  /** Exact, in the unit of the sheet. */
  readonly value: string;
  readonly verdict: Verdict;
}

export interface Adjusted {
  readonly type: 'adjusted';
  readonly step: number;
  readonly typed: string;
  readonly mass: Grams;
  readonly lot?: string;
}

export interface AdjustFinished {
  readonly type: 'adjust-finished';
  readonly step: number;
  readonly total: Grams;
  /** There when more than the sheet's most went in. */
  readonly reason?: string;
}

export type TallyItem = 'good' | 'rejected' | 'samples' | 'left over' | 'crumbs' | 'weight';

export interface Tallied {
  readonly type: 'tallied';
  readonly step: number;
  readonly item: TallyItem;
  readonly typed: string;
  /** Pieces for good, rejected and samples; grams for the others. */
  readonly value: string;
  /** Why pieces were rejected. */
  readonly reason?: string;
}

export interface Unwitnessed {
  readonly type: 'unwitnessed';
  readonly step: number;
  readonly reason: string;
}

/** A second person confirmed the step with their own passphrase: their key signed for all that stood in the journal. */
export interface Witnessed {
  readonly type: 'witnessed';
  readonly step: number;
  readonly witness: string;
  /** The thumbprint of the witness's key. */
  readonly kid: string;
  /** Ed25519, base64url, over the text that witness-text.ts makes. */
  readonly signature: string;
}

export interface PutLater {
  readonly type: 'put-later';
  readonly step: number;
}

export interface TurnedTo {
  readonly type: 'turned-to';
  /** The name of a phase, or `finish`. */
  readonly phase: string;
}

export interface Noted {
  readonly type: 'noted';
  readonly text: string;
  readonly step?: number;
}

export interface Paused {
  readonly type: 'paused';
  readonly reason: string;
}

export interface Resumed {
  readonly type: 'resumed';
}

export interface HandedOver {
  readonly type: 'handed-over';
  readonly to: string;
}

export interface Closed {
  readonly type: 'closed';
  readonly outcome: 'made' | 'rejected';
  /** There when the batch was scrapped. */
  readonly reason?: string;
}

export type RunEvent =
  | Begun
  | VesselWeighed
  | LotIdentified
  | Tared
  | ReadingTaken
  | TakenBack
  | RemediesOffered
  | RemedyChosen
  | RemedyLeft
  | SlipAnswered
  | Amended
  | Accepted
  | Ticked
  | HoldStarted
  | HoldEnded
  | Measured
  | Adjusted
  | AdjustFinished
  | Tallied
  | Unwitnessed
  | Witnessed
  | PutLater
  | TurnedTo
  | Noted
  | Paused
  | Resumed
  | HandedOver
  | Closed;

/** Events that concern the batch as a whole. */
type BatchEvent =
  | Begun
  | RemediesOffered
  | RemedyChosen
  | RemedyLeft
  | VesselWeighed
  | PutLater
  | TurnedTo
  | Noted
  | Paused
  | Resumed
  | HandedOver
  | Closed;

/** Events that change the state of their step. */
export type StepEvent = Exclude<RunEvent, BatchEvent>;

/** An event with its number in the journal (from 1), its instant and its person. */
export interface Stamped {
  readonly seq: number;
  /** ISO 8601 with offset. */
  readonly at: string;
  readonly by: string;
  readonly event: RunEvent;
}
