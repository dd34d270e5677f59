/** What happened about an over-pour; part of the vocabulary of event.ts. */
import type { Grams } from './event.ts';

export type StretchKind = 'least-stretch' | 'whole-pieces' | 'exact-proportion';

export interface LineMassText {
  /** The number of the addition. */
  readonly n: number;
  readonly mass: Grams;
}

/** One way out of an over-pour as it was shown; the numbers are there where it was possible. */
export interface RemedyText {
  readonly kind: 'take-back' | StretchKind | 'accept' | 'scrap';
  readonly possible: boolean;
  /** Why it was not possible: a code. */
  readonly reason?: string;
  /** A fraction of present sizes: `104/101`. */
  readonly stretch?: string;
  readonly topUps?: readonly LineMassText[];
  readonly targets?: readonly LineMassText[];
  readonly batchMass?: Grams;
  readonly pieces?: number;
  readonly surplus?: readonly { readonly phase: string; readonly mass: Grams }[];
  /** Why a smaller stretch would not do: a code. */
  readonly forcedBy?: string;
}

/** What could be done about an over-pour, written with the decision about it. */
export interface RemediesOffered {
  readonly type: 'remedies-offered';
  readonly step: number;
  readonly remedies: readonly RemedyText[];
}

/** The batch was made bigger, so that an over-pour fits. */
export interface RemedyChosen {
  readonly type: 'remedy-chosen';
  readonly step: number;
  readonly kind: StretchKind;
  /** Of present sizes. */
  readonly stretch: string;
  readonly topUps: readonly LineMassText[];
  readonly targets: readonly LineMassText[];
  readonly batchMass: Grams;
  readonly pieces: number;
  readonly reason: string;
}

/** The chosen remedy was left before anything was poured for it: the targets are what they were. */
export interface RemedyLeft {
  readonly type: 'remedy-left';
  readonly step: number;
}

/** The answer to the question whether a reading was only read wrongly. */
export interface SlipAnswered {
  readonly type: 'slip-answered';
  readonly step: number;
  /** The number of the reading's event. */
  readonly about: number;
  readonly slip: string;
  readonly answer: 'yes' | 'no';
}
