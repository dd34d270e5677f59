import { join } from 'node:path';
import type { Done, Opening } from '../core/dialogue/bench.ts';
import type { Scale } from '../core/plan/plan.ts';
import { decide } from '../core/run/decide.ts';
import type { Intent } from '../core/run/intent.ts';
import type { Refusal } from '../core/run/refusal.ts';
import type { RunSession } from '../core/run/session.ts';
import { unbegun } from '../core/run/state.ts';
import { openChained } from './chained-file.ts';
import { listIfThere } from './disk.ts';
import { attempt } from './disk-error.ts';
import { acquireLock, type Lock, withLock } from './lock.ts';
import { isBatchNumber, nextNumber, takeNumber } from './number.ts';
import { replayJournal } from './replay-journal.ts';
import { createSession } from './session.ts';
import { settingsOf } from './settings.ts';
import { filesOf, lockWish, type Workshop } from './workshop.ts';

/** A batch that this process holds until it releases it. */
export interface HeldBatch {
  readonly session: RunSession;
  /** Hash of the last line of its journal. */
  readonly head: () => string;
  readonly release: () => void;
}

type OpenedJournal = Pick<HeldBatch, 'session' | 'head'>;

const openJournal = (workshop: Workshop, batch: string, by: string): Done<OpenedJournal> => {
  const opened = openChained(workshop.disk, filesOf(workshop, batch).journal);
  if (!opened.ok) return opened;
  const { file, notice } = opened.value;
  const run = replayJournal(workshop, batch, file.lines());
  if (!run.ok) return run;
  if (notice !== undefined) workshop.tell(notice);
  return {
    ok: true,
    value: {
      session: createSession({ run: run.value, file, now: workshop.now, by }),
      head: file.head,
    },
  };
};

const hold = (
  workshop: Workshop,
  batch: string,
  takeOver: boolean,
  act: (lock: Lock) => Done<OpenedJournal>,
): Done<HeldBatch> => {
  const lock = acquireLock(workshop.disk, join(filesOf(workshop, batch).folder, 'lock'), {
    ...lockWish(workshop, `Batch ${batch}`),
    takeOver,
  });
  if (!lock.ok) return lock;
  const journal = act(lock.value);
  if (journal.ok) {
    return { ok: true, value: { ...journal.value, release: lock.value.release } };
  }
  lock.value.release();
  return journal;
};

/**
 * Opens a batch that was begun and holds it. `takeOver` is the reason for which the lock of another
 * computer is set aside; it goes into the journal as a note.
 */
export const openBatch = (
  workshop: Workshop,
  batch: string,
  takeOver?: string,
): Done<HeldBatch> => {
  const found = attempt('The batches could not be listed', () =>
    listIfThere(workshop.disk, workshop.batches),
  );
  if (!found.ok) return found;
  if (!isBatchNumber(batch) || !found.value.includes(batch)) {
    return { ok: false, why: `There is no such batch in ${workshop.folder}.` };
  }
  return hold(workshop, batch, takeOver !== undefined, ({ tookOverFrom }) => {
    const journal = openJournal(workshop, batch, '');
    if (!journal.ok) return journal;
    const run = journal.value.session.state();
    if (run.phase === 'unbegun') {
      return {
        ok: false,
        why: `Batch ${batch} was never begun: its number was given, and nothing else was written.`,
      };
    }
    if (tookOverFrom === undefined || run.phase === 'closed') return journal;
    const text = `Taken over from ${tookOverFrom}: ${takeOver}`;
    return dispatched(journal.value, { type: 'note', text });
  });
};

const whyRefused = ({ message, instead }: Refusal): string => `${message} ${instead}`;

const dispatched = (journal: OpenedJournal, intent: Intent): Done<OpenedJournal> => {
  const outcome = journal.session.dispatch(intent);
  if (outcome.kind === 'done') return { ok: true, value: journal };
  return {
    ok: false,
    why: outcome.kind === 'refused' ? whyRefused(outcome.refusal) : outcome.why,
  };
};

export interface Beginning {
  readonly by: string;
  /** Why it begins although a scale was not checked in time. */
  readonly scaleReason?: string;
}

/**
 * Gives a batch its number and begins it. A number is taken only for what can be begun; from then on it
 * is never given again, even if the disk refuses the rest.
 */
export const beginBatch = (
  workshop: Workshop,
  opening: Opening,
  scales: readonly Scale[],
  { by, ...reason }: Beginning,
): Done<HeldBatch> => {
  const settings = settingsOf(workshop);
  if (!settings.ok) return settings;
  const intentFor = (batch: string): Intent => ({
    type: 'begin',
    batch,
    practice: workshop.practice,
    program: workshop.program,
    sheet: opening.sheetText,
    size: opening.size,
    scales,
    ...settings.value,
    ...reason,
  });
  const at = workshop.now();
  const numbered = withLock(
    workshop.disk,
    `${workshop.batches}.lock`,
    lockWish(workshop, 'The numbering of batches'),
    () => {
      const number = nextNumber(workshop, opening.sheet.code);
      if (!number.ok) return number;
      const decision = decide(unbegun, intentFor(number.value), { at, by });
      if (!decision.ok) return { ok: false, why: whyRefused(decision.refusal) };
      const taken = takeNumber(workshop, number.value);
      return taken.ok ? number : taken;
    },
  );
  if (!numbered.ok) return numbered;
  const batch = numbered.value;
  return hold(workshop, batch, false, () => {
    const journal = openJournal(workshop, batch, by);
    return journal.ok ? dispatched(journal.value, intentFor(batch)) : journal;
  });
};
