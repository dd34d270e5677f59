/** The claims that come of working everything out again. */
import type { BatchRecord } from '../../core/result/record.ts';
import { type Claim, fails, holds, notReached } from './claim.ts';
import { explainDifferences } from './recompute/difference.ts';
import { recompute, type Worked } from './recompute/recompute.ts';

type Name = 'sheet' | 'plan' | 'verdicts' | 'result';

const good: Readonly<Record<Name, string>> = {
  sheet: 'The sheet in the record can be read and is the one that the batch was begun with.',
  plan: 'Targets, windows and scales come out the same when worked out again.',
  verdicts: 'Every reading, amount and hold comes out the same when worked out again.',
  result: 'The result comes out the same, in every digit, when worked out again.',
};

const claimOf = (name: Name, worked: Worked): Claim => {
  if (worked.kind === 'not-reached') return notReached(name);
  if (worked.kind === 'stopped') {
    return fails(name, 'not-workable', `It cannot be worked out again: ${worked.why}.`);
  }
  return worked.differences.length === 0
    ? holds(name, good[name])
    : fails(name, 'differs', `${explainDifferences(worked.differences)}.`);
};

export const checkResult = (record: BatchRecord): readonly Claim[] => {
  const again = recompute(record);
  return [
    claimOf('sheet', again.sheet),
    claimOf('plan', again.plan),
    claimOf('verdicts', again.verdicts),
    claimOf('result', again.result),
  ];
};
