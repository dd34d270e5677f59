/** Everything in a record that follows from its sheet and its events, worked out again and compared. */

import type { BatchRecord } from '../../../core/result/record.ts';
import { readSheet } from '../../../core/sheet/read-sheet.ts';
import type { Sheet } from '../../../core/sheet/sheet.ts';
import { type Difference, differencesBetween } from './difference.ts';
import { type Entry, type EntryOf, isEntry } from './entry.ts';
import { type PlanAgain, planAgain } from './plan-again.ts';
import { replay } from './replay.ts';
import { resultAgain } from './result-again.ts';

/** Worked out, with what differs; stopped, with the reason; or not reached, since an earlier part stopped. */
export type Worked =
  | { readonly kind: 'worked-out'; readonly differences: readonly Difference[] }
  | { readonly kind: 'stopped'; readonly why: string }
  | { readonly kind: 'not-reached' };

export interface Recomputed {
  readonly sheet: Worked;
  readonly plan: Worked;
  readonly verdicts: Worked;
  readonly result: Worked;
}

const attempt = <T>(work: () => T): { readonly value: T } | { readonly why: string } => {
  try {
    return { value: work() };
  } catch (error) {
    // Whatever a hostile record provokes is a finding, never a crash.
    return { why: error instanceof Error ? error.message : 'it cannot be worked out' };
  }
};

const stopped = (why: string): Worked => ({ kind: 'stopped', why });
const notReached: Worked = { kind: 'not-reached' };
const worked = (differences: readonly Difference[]): Worked => ({
  kind: 'worked-out',
  differences,
});

const sheetOf = (text: string): Sheet => {
  const read = readSheet(text);
  if (!read.ok) throw new RangeError('the sheet in the record cannot be read');
  return read.sheet;
};

const entriesOf = (events: BatchRecord['events']): readonly Entry[] =>
  events.map((event, index): Entry => {
    if (isEntry(event)) return event;
    throw new RangeError(`event ${index + 1} is not one that this version knows`);
  });

const sheetDifferences = (record: BatchRecord, { name, code, revision }: Sheet) =>
  differencesBetween('sheet', record.sheet, { name, code, revision, text: record.sheet.text });

const begunDifferences = (
  record: BatchRecord,
  { batch, practice, program, sheet }: EntryOf<'begun'>,
): readonly Difference[] => {
  const told = { batch: record.batch, practice: record.practice, program: record.program };
  return [
    ...differencesBetween('record', told, { batch, practice, program }),
    ...differencesBetween('sheet.text', record.sheet.text, sheet),
  ];
};

const followed = (
  record: BatchRecord,
  sheet: Sheet,
  plan: PlanAgain,
): Pick<Recomputed, 'verdicts' | 'result'> => {
  const run = attempt(() => {
    const entries = entriesOf(record.events);
    return { entries, ...replay(sheet, plan, entries) };
  });
  if (!('value' in run)) return { verdicts: stopped(run.why), result: notReached };
  const { replayed, entries, differences } = run.value;
  const result = attempt(() => resultAgain(replayed, entries));
  return {
    verdicts: worked(differences),
    result:
      'value' in result
        ? worked(differencesBetween('result', record.result, result.value))
        : stopped(result.why),
  };
};

const begunOf = (record: BatchRecord): EntryOf<'begun'> => {
  const begun: unknown = record.events[0];
  if (isEntry(begun) && begun.type === 'begun') return begun;
  throw new RangeError('the first event is not the beginning');
};

/** Works a record out again from its sheet's text and its events. Never throws. */
export const recompute = (record: BatchRecord): Recomputed => {
  const read = attempt(() => sheetOf(record.sheet.text));
  if (!('value' in read)) {
    return {
      sheet: stopped(read.why),
      plan: notReached,
      verdicts: notReached,
      result: notReached,
    };
  }
  const sheet = read.value;
  const plan = attempt(() => {
    const begun = begunOf(record);
    return { again: planAgain(sheet, begun.size, begun.scales), begun };
  });
  if (!('value' in plan)) {
    return {
      sheet: worked(sheetDifferences(record, sheet)),
      plan: stopped(plan.why),
      verdicts: notReached,
      result: notReached,
    };
  }
  const { again, begun } = plan.value;
  return {
    sheet: worked([...sheetDifferences(record, sheet), ...begunDifferences(record, begun)]),
    plan: worked(differencesBetween('plan', record.plan, again.text)),
    ...followed(record, sheet, again),
  };
};
