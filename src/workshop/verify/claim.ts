/** What verify says: each claim, whether it holds, and one verdict with its exit status. */
export interface Claim {
  readonly claim: ClaimName;
  readonly state: 'holds' | 'fails' | 'unfinished' | 'not-checked';
  /** `ok`, or what is wrong, for programs. */
  readonly code: string;
  /** One sentence for people. */
  readonly text: string;
}

export type ClaimName =
  | 'files'
  | 'record'
  | 'events'
  | 'journal'
  | 'sheet'
  | 'plan'
  | 'verdicts'
  | 'result'
  | 'signature'
  | 'ledger'
  | 'register'
  | 'closed'
  | 'signed'
  | 'addendum'
  | 'added'
  | 'state'
  | 'number'
  | 'witness'
  | 'finished';

export type Verdict = 'good' | 'does not hold' | 'unreadable' | 'unfinished';

const statusOf = { good: 0, 'does not hold': 1, unreadable: 3, unfinished: 4 } as const;

export interface Judgement {
  readonly verdict: Verdict;
  /** The exit status: 0 good, 1 does not hold, 3 missing, unreadable or not ours, 4 still open or closing unfinished. */
  readonly status: (typeof statusOf)[Verdict];
}

// Names and numbers in a sentence come from the files: none of them may speak to the terminal.
const unwanted = /[\p{Cc}\u2028-\u202E\u2066-\u2069]/gu;

export const harmless = (text: string): string => text.replace(unwanted, '\uFFFD');

const inState =
  (state: Claim['state']) =>
  (claim: ClaimName, code: string, text: string): Claim => ({
    claim,
    state,
    code,
    text: harmless(text),
  });

export const fails = inState('fails');
export const unfinished = inState('unfinished');
export const holds = (claim: ClaimName, text: string): Claim => inState('holds')(claim, 'ok', text);

/** For a claim that an earlier one left nothing to check with. */
export const notReached = (claim: ClaimName): Claim => ({
  claim,
  state: 'not-checked',
  code: 'not-reached',
  text: 'It could not be checked, because of what is wrong before it.',
});

const judged = (verdict: Verdict): Judgement => ({ verdict, status: statusOf[verdict] });

/** The worst of the claims decides; one that could not be checked is never good. */
export const judgeClaims = (claims: readonly Claim[]): Judgement => {
  const has = (state: Claim['state']): boolean => claims.some(each => each.state === state);
  if (claims.some(each => each.claim === 'files' && each.state === 'fails'))
    return judged('unreadable');
  if (has('fails')) return judged('does not hold');
  if (has('unfinished')) return judged('unfinished');
  return judged(has('not-checked') ? 'does not hold' : 'good');
};
