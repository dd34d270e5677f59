import type { Plan, Scale, SizeWish } from '../plan/plan.ts';
import type { RunSession } from '../run/session.ts';
import type { Problem } from '../sheet/problem.ts';
import type { Sheet } from '../sheet/sheet.ts';
import type { Instant } from '../time/instant.ts';

/** Either done, or the sentence that says why not. */
export type Done<T = true> =
  | { readonly ok: true; readonly value: T }
  | { readonly ok: false; readonly why: string };

/** A sheet that was opened to be made, before it has a batch number. */
export interface Opening {
  readonly sheet: Sheet;
  readonly sheetText: string;
  readonly size: SizeWish;
  readonly practice: boolean;
}

/**
 * What a conversation needs of the world. The workshop implements it; tests hand in a fake. Nothing
 * here is asked for before it is needed.
 */
export interface Bench {
  readonly now: () => Instant;
  /** The name given on the command line or used last; undefined asks for it. */
  readonly person: string | undefined;
  /** The scales on the register; empty when none was ever entered. */
  readonly scales: () => readonly Scale[];
  readonly addScale: (scale: Scale, by: string) => Done;
  /** Plans the opened sheet with these scales; for showing before anything is begun. */
  readonly opening: Opening | undefined;
  readonly plan: (
    opening: Opening,
    scales: readonly Scale[],
  ) => { readonly plan: Plan; readonly problems: readonly Problem[] };
  /** Gives the batch its number, opens its journal and writes `begun`. */
  readonly begin: (
    opening: Opening,
    scales: readonly Scale[],
    by: string,
    /** Why it begins although a scale was not checked in time. */
    scaleReason?: string,
  ) => Done<RunSession>;
  /** The batch that is resumed, when one is. */
  readonly session: RunSession | undefined;
  /** Whether the person has a key here already. */
  readonly hasKey: (name: string) => boolean;
  /** Makes a key for the person under the passphrase and puts it on the register. */
  readonly enrol: (name: string, passphrase: string) => Promise<Done>;
  /** Lets the key of a witness sign for the batch as it stands; answers what the event keeps. */
  readonly witness: (
    step: number,
    name: string,
    passphrase: string,
  ) => Promise<Done<{ readonly kid: string; readonly signature: string }>>;
  /** Writes the record of a closed batch, if it is not there, and signs it. Answers where the record is. */
  readonly sign: (
    batch: string,
    name: string,
    passphrase: string,
    meaning: Meaning,
  ) => Promise<Done<string>>;
}

/** What a signature means (21 CFR 11.50). */
export type Meaning = (typeof meanings)[number];

export const meanings = [
  'made by',
  'witnessed by',
  'reviewed by',
  'released by',
  'rejected by',
] as const;
