import type { Done } from '../core/dialogue/bench.ts';
import type { Addendum } from '../core/result/addendum.ts';
import type { ClosedRun } from '../core/run/state.ts';
import { enter } from './book.ts';
import { closedLine, ledgerBook } from './ledger.ts';
import { isBatchNumber } from './number.ts';
import { recordAddendum } from './record-addendum.ts';
import { keepRecord, recordBytes, sha256 } from './record-file.ts';
import { type JournalRead, readJournal } from './replay-journal.ts';
import { recordSignatures, type Signed } from './signature-file.ts';
import { filesOf, type Workshop } from './workshop.ts';

export interface ClosedBatch {
  readonly run: ClosedRun;
  /** The bytes of record.json, as they stand on the disk. */
  readonly record: Buffer;
  /** Signatures that were made, but not yet in the ledger. */
  readonly recovered: readonly Signed[];
  /** An addendum that was signed, but not yet in the ledger. */
  readonly recoveredAddendum: Addendum | undefined;
}

const closeInLedger = (
  workshop: Workshop,
  run: ClosedRun,
  { lines, head }: JournalRead,
): Done<Buffer> => {
  const built = recordBytes(run, lines);
  const path = filesOf(workshop, run.batch).record;
  let record = built;
  const entered = enter(workshop, ledgerBook(workshop), run.person, ledger => {
    const line = closedLine(ledger.lines, run.batch);
    if (line !== undefined && line.journal !== head) {
      return {
        ok: false,
        why: `The journal of ${run.batch} is not the one that the ledger names. Bring it back from a backup.`,
      };
    }
    const kept = keepRecord(workshop.disk, path, built, line?.record);
    if (!kept.ok) return kept;
    record = kept.value;
    return {
      ok: true,
      value:
        line === undefined
          ? { type: 'closed', batch: run.batch, record: sha256(record), journal: head }
          : undefined,
    };
  });
  return entered.ok ? { ok: true, value: record } : entered;
};

/**
 * Does what is still to be done after a journal's last event: record.json, the ledger's line, and the
 * ledger's lines of signatures and of an addendum already made. What is done stays as it is, so doing it twice changes nothing.
 */
export const finishClosing = (workshop: Workshop, batch: string): Done<ClosedBatch> => {
  const missing = { ok: false, why: `There is no such batch in ${workshop.folder}.` } as const;
  if (!isBatchNumber(batch)) return missing;
  const journal = readJournal(workshop, batch);
  if (!journal.ok) return journal;
  const { run } = journal.value;
  if (run.phase === 'unbegun') return missing;
  if (run.phase !== 'closed') {
    return {
      ok: false,
      why: `Batch ${batch} is not closed. Go on with it first: tarebook resume ${batch}.`,
    };
  }
  const record = closeInLedger(workshop, run, journal.value);
  if (!record.ok) return record;
  const recovered = recordSignatures(workshop, batch, record.value);
  if (!recovered.ok) return recovered;
  const addendum = recordAddendum(workshop, batch, record.value);
  if (!addendum.ok) return addendum;
  return {
    ok: true,
    value: {
      run,
      record: record.value,
      recovered: recovered.value,
      recoveredAddendum: addendum.value,
    },
  };
};
