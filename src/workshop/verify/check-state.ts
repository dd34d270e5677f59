/** Where a closed batch stands: made, released or rejected, by the latest such signature in the ledger. */
import type { BatchRecord } from '../../core/result/record.ts';
import { type Books, signedLinesOf } from './books.ts';
import { type Counted, deviationsIn } from './check-addenda.ts';
import { type Claim, fails, holds } from './claim.ts';
import type { SignedLine } from './formats.ts';

export interface BatchState {
  readonly name: 'made' | 'released' | 'rejected';
  /** Who decided it, and when; undefined where it is as it was closed. */
  readonly decided?: { readonly by: string; readonly at: string };
}

export const stateOf = (books: Books, { batch, result }: BatchRecord): BatchState => {
  const line = signedLinesOf(books, batch).findLast(({ meaning }) =>
    ['released by', 'rejected by'].includes(meaning),
  );
  if (line === undefined) return { name: result.outcome === 'rejected' ? 'rejected' : 'made' };
  const decided = { by: line.signer, at: line.at };
  return { name: line.meaning === 'released by' ? 'released' : 'rejected', decided };
};

/** The first deviation, from 1, that no addendum before a line of the ledger assesses. */
const unassessedBefore = (
  { seq }: SignedLine,
  record: BatchRecord,
  counted: readonly Counted[],
): number | undefined => {
  const assessed = new Set(
    counted.filter(each => each.seq < seq).map(each => each.addendum.refers),
  );
  const all = Array.from({ length: deviationsIn(record) }, (_, index) => index + 1);
  return all.find(n => !assessed.has(n));
};

const checkRelease = (
  line: SignedLine,
  record: BatchRecord,
  counted: readonly Counted[],
): Claim | undefined => {
  if (record.result.outcome !== 'made') {
    return fails('state', 'not-made', 'A batch that was closed as rejected was released.');
  }
  const missing = unassessedBefore(line, record, counted);
  return missing === undefined
    ? undefined
    : fails(
        'state',
        'unassessed',
        `Deviation ${missing} was not assessed when the batch was released.`,
      );
};

/** Whether every release was one that could be made, and what the batch is now. */
export const checkState = (
  books: Books,
  record: BatchRecord,
  counted: readonly Counted[],
): Claim => {
  const [fault] = signedLinesOf(books, record.batch)
    .filter(({ meaning }) => meaning === 'released by')
    .flatMap(line => checkRelease(line, record, counted) ?? []);
  if (fault !== undefined) return fault;
  const { name, decided } = stateOf(books, record);
  return holds(
    'state',
    decided === undefined
      ? `The batch is ${name}; nobody has released or rejected it since.`
      : `The batch is ${name}, by ${decided.by}, ${decided.at}.`,
  );
};
