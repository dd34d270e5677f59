import type { Plan } from '../plan/plan.ts';
import type { Mass } from '../quantity/quantity.ts';
import type { Sheet } from '../sheet/sheet.ts';
import type { Instant } from '../time/instant.ts';
import type { Grams, Part, Stamped, TallyItem, Typed, Verdict, Way } from './event.ts';

/** What is true of a batch now: a fold of its events, see evolve.ts. */
export type Run = UnbegunRun | OpenRun | ClosedRun;

export interface UnbegunRun {
  readonly phase: 'unbegun';
}

export const unbegun: UnbegunRun = { phase: 'unbegun' };

/** What an open and a closed batch both know. */
export interface RunFacts {
  readonly batch: string;
  readonly practice: boolean;
  readonly program: string;
  readonly sheetText: string;
  readonly sheet: Sheet;
  /** At the present size: a stretch changes it. */
  readonly plan: Plan;
  /** As the batch was begun. */
  readonly begunPlan: Plan;
  /** Who began it. */
  readonly begunBy: string;
  readonly begunAt: Instant;
  /** Who goes on with it now. */
  readonly person: string;
  readonly events: readonly Stamped[];
  readonly vessels: ReadonlyMap<string, VesselState>;
  /** The lot of a material that was identified last, by material. */
  readonly lots: ReadonlyMap<string, string>;
  /** One for each step of the plan, in its order; step n stands at n − 1. */
  readonly steps: readonly StepState[];
  readonly deviations: readonly Deviation[];
  /** Steps that were put later. */
  readonly later: ReadonlySet<number>;
  /** The phase a maker turned to; absent while the sheet's order is followed. */
  readonly turnedTo?: string;
  readonly isPaused: boolean;
  /** A chosen remedy of which nothing was poured yet, with what was true before it. */
  readonly remedy?: {
    readonly step: number;
    readonly before: Pick<RunFacts, 'plan' | 'steps'>;
  };
  /** Seqs of events whose instant lies before the one before them: the clock went backwards. */
  readonly clockWentBack: readonly number[];
}

export interface OpenRun extends RunFacts {
  readonly phase: 'open';
}

export interface ClosedRun extends RunFacts {
  readonly phase: 'closed';
  readonly outcome: 'made' | 'rejected';
  readonly reason?: string;
  readonly closedAt: Instant;
}

export interface VesselState {
  readonly tare: Mass;
  /** Net mass of all that went in. */
  readonly contents: Mass;
  /** Where its contents are now, once it was tipped: what is topped up goes there. */
  readonly tippedInto?: string;
  /** False once a step emptied it. */
  readonly isOpen: boolean;
  /** The last step that put something in or did something with it: only that one can be taken back. */
  readonly lastStep?: number;
}

/**
 * A departure from the sheet, as numbers: what was found and what the sheet allows. Grams for masses,
 * seconds for times, the sheet's unit for what was measured.
 */
export interface Deviation {
  /** 0 before the first step. */
  readonly step: number;
  readonly what:
    | 'under'
    | 'over'
    | 'out-of-limits'
    | 'overdue'
    | 'hold-early'
    | 'hold-late'
    | 'adjust-over'
    | 'unwitnessed'
    | 'scale-unchecked';
  /** Exact, as are the bounds; absent for `unwitnessed` and `scale-unchecked`. */
  readonly found?: string;
  readonly least?: string;
  readonly most?: string;
  readonly reason: string;
  readonly at: string;
  readonly by: string;
}

interface StepBase {
  readonly status: 'waiting' | 'running' | 'done';
  readonly startedAt?: Instant;
  readonly doneAt?: Instant;
  readonly isOverdueAccepted: boolean;
}

export type StepState = AdditionState | PlainState | MeasureState | AdjustState | TallyState;

/** wear, ready, do, tip and hold: ticked, or running and then ended. */
export interface PlainState extends StepBase {
  readonly kind: 'plain';
}

/** A reading as it stands: as typed, or as it was put right. */
export interface StandingReading {
  /** The number of the event that says it. */
  readonly seq: number;
  readonly part: Part;
  readonly mass: Grams;
}

/** One pour: what went in between two tares, from one lot. */
export interface Pour {
  readonly lot?: string;
  /** By which its net is known: a display, a cup and its residue, or a container before and after. */
  readonly readings: readonly StandingReading[];
  /** The number of the event that last read it; 0 before. */
  readonly readAt: number;
  readonly net: Mass;
  /** Lifted out again: waste. */
  readonly waste: Mass;
}

export interface LastReading {
  readonly seq: number;
  readonly way: Way;
  readonly part: Part;
  readonly reading: Typed;
}

export interface AdditionState extends StepBase {
  readonly kind: 'addition';
  /** The last one is the present pour. */
  readonly pours: readonly Pour[];
  readonly total: Mass;
  /** Of the last reading that was judged. */
  readonly verdict?: Verdict;
  readonly lastReading?: LastReading;
  /** By difference: the container before. */
  readonly before?: StandingReading;
  /** The cup's display, while its residue is still to be weighed. */
  readonly cup?: Grams;
  /** Out of its window, and a person decided to live with it. */
  readonly isAccepted: boolean;
  /** Of an addition that is planned as several weighings: how many came to their part, and the first pour of the one in hand. */
  readonly partsDone: number;
  readonly partFrom: number;
  /** How the weighing alone lay, where the addition is planned as several. */
  readonly partVerdict?: Verdict;
  /** The reading of which a person said that it was not read wrongly, or that it was. */
  readonly slipAnswered?: number;
  /** Put right to outside its window when its vessel was emptied already: nothing but a reason can follow. */
  readonly isGone: boolean;
  /** A witness is due before the line is done. */
  readonly isWitnessDue: boolean;
}

export interface MeasureState extends StepBase {
  readonly kind: 'measure';
  readonly typed?: string;
  readonly value?: string;
  readonly verdict?: Verdict;
}

export interface AdjustEntry {
  readonly typed: string;
  readonly mass: Mass;
  readonly lot?: string;
}

export interface AdjustState extends StepBase {
  /** The lot in use. */
  readonly lot?: string;
  readonly kind: 'adjust';
  readonly entries: readonly AdjustEntry[];
  readonly total: Mass;
}

export interface TallyEntry {
  readonly item: TallyItem;
  readonly value: string;
  readonly reason?: string;
}

export interface TallyState extends StepBase {
  readonly kind: 'tally';
  readonly entries: readonly TallyEntry[];
}
