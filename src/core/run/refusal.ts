/** Why an intent was refused, in one sentence, and what to do instead. */
export interface Refusal {
  readonly code: RefusalCode;
  readonly message: string;
  readonly instead: string;
}

export const refusalCodes = [
  'not-begun',
  'already-begun',
  'already-closed',
  'paused',
  'not-paused',
  'not-this-step',
  'wrong-kind',
  'vessel-not-weighed',
  'vessel-known',
  'tare-far-off',
  'no-lot',
  'lot-known',
  'bad-lot',
  'bad-reading',
  'ambiguous-reading',
  'too-many-decimals',
  'wrong-unit',
  'negative-net',
  'reading-fell',
  'over-capacity',
  'wrong-part',
  'nothing-read',
  'decision-due',
  'cannot-take-back',
  'remedy-impossible',
  'remedy-under-way',
  'no-slip',
  'limit-would-break',
  'reason-missing',
  'bad-note',
  'overdue',
  'hold-not-kept',
  'adjust-over-most',
  'adjust-far-off',
  'count-far-off',
  'bad-count',
  'bad-tally',
  'not-finished',
  'not-amendable',
  'no-such-phase',
  'bad-sheet',
  'scale-unchecked',
  'bad-name',
  'witness-needed',
  'not-yet',
] as const;

export type RefusalCode = (typeof refusalCodes)[number];
