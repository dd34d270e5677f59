import type { Done } from '../core/dialogue/bench.ts';
import { stepInHand } from '../core/run/focus.ts';
import type { OpenRun } from '../core/run/state.ts';
import type { Instant } from '../core/time/instant.ts';
import { listIfThere } from './disk.ts';
import { attempt } from './disk-error.ts';
import { type LedgerLine, readLedger } from './ledger.ts';
import { isBatchNumber } from './number.ts';
import { readJournal } from './replay-journal.ts';
import type { Signed } from './signature-file.ts';
import type { Workshop } from './workshop.ts';

export interface BatchInHand {
  readonly batch: string;
  readonly sheet: string;
  readonly begun: Instant;
  readonly person: string;
  /** The step to go on at, and how many there are. */
  readonly step: number;
  readonly steps: number;
  readonly isPaused: boolean;
}

export interface BatchClosed {
  readonly batch: string;
  /** ISO 8601 with offset: when the ledger took it. */
  readonly closed: string;
  /** None: the record waits for its first signature. */
  readonly signatures: readonly Signed[];
  /** By the latest signature that decided it; undefined where none did. */
  readonly decision: 'released' | 'rejected' | undefined;
}

/** What a workshop holds: `closed` in the order of the ledger, the other lists in that of the batch numbers. */
export interface Home {
  readonly inHand: readonly BatchInHand[];
  /** Closed in the journal, but not yet in the ledger: `resume` finishes them. */
  readonly unfinished: readonly string[];
  readonly closed: readonly BatchClosed[];
  readonly unreadable: readonly { readonly batch: string; readonly why: string }[];
}

const inHand = (run: OpenRun): BatchInHand => ({
  batch: run.batch,
  sheet: run.sheet.name,
  begun: run.begunAt,
  person: run.person,
  step: stepInHand(run)?.n ?? run.plan.steps.length,
  steps: run.plan.steps.length,
  isPaused: run.isPaused,
});

const decisionOf = (signatures: readonly Signed[]): BatchClosed['decision'] => {
  const last = signatures.findLast(({ meaning }) =>
    ['released by', 'rejected by'].includes(meaning),
  );
  if (last === undefined) return undefined;
  return last.meaning === 'released by' ? 'released' : 'rejected';
};

const signaturesByBatch = (
  lines: readonly LedgerLine[],
): ReadonlyMap<string, readonly Signed[]> => {
  const byBatch = new Map<string, Signed[]>();
  for (const line of lines) {
    if (line.type !== 'signed') continue;
    const { batch, signer, meaning } = line;
    const signatures = byBatch.get(batch) ?? [];
    signatures.push({ signer, meaning });
    byBatch.set(batch, signatures);
  }
  return byBatch;
};

const closedOf = (lines: readonly LedgerLine[]): readonly BatchClosed[] => {
  const byBatch = signaturesByBatch(lines);
  return lines.flatMap(line => {
    if (line.type !== 'closed') return [];
    const signatures = byBatch.get(line.batch) ?? [];
    return { batch: line.batch, closed: line.at, signatures, decision: decisionOf(signatures) };
  });
};

// Hundreds of closed batches are told from the ledger alone; only those in hand are replayed.
const openNumbers = (names: readonly string[], closed: readonly BatchClosed[]) => {
  const done = new Set(closed.map(each => each.batch));
  return names.filter(name => isBatchNumber(name) && !done.has(name)).toSorted();
};

/** Looks through a workshop without holding or changing anything. */
export const readHome = (workshop: Workshop): Done<Home> => {
  const { disk, batches } = workshop;
  const ledger = readLedger(workshop);
  if (!ledger.ok) return ledger;
  const names = attempt('The batches could not be listed', () => listIfThere(disk, batches));
  if (!names.ok) return names;
  const closed = closedOf(ledger.value);
  const open: BatchInHand[] = [];
  const unfinished: string[] = [];
  const unreadable: { readonly batch: string; readonly why: string }[] = [];
  for (const batch of openNumbers(names.value, closed)) {
    const journal = readJournal(workshop, batch);
    if (!journal.ok) unreadable.push({ batch, why: journal.why });
    else if (journal.value.run.phase === 'open') open.push(inHand(journal.value.run));
    else if (journal.value.run.phase === 'closed') unfinished.push(batch);
  }
  return { ok: true, value: { inHand: open, unfinished, closed, unreadable } };
};
