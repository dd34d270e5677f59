import { join } from 'node:path';
import { formatInstant, type Instant } from '../core/time/instant.ts';
import { type Disk, realDisk } from './disk.ts';
import type { LockWish } from './lock.ts';

/** One workshop folder, or the practice room inside it, with the clock and the program that work in it. */
export interface Workshop {
  readonly practice: boolean;
  readonly folder: string;
  readonly register: string;
  readonly ledger: string;
  readonly batches: string;
  readonly disk: Disk;
  readonly now: () => Instant;
  /** Name and version, as records keep them. */
  readonly program: string;
  /** Hears in a sentence what was mended on the way. */
  readonly tell: (sentence: string) => void;
}

export interface WorkshopWish {
  readonly practice: boolean;
  readonly now: () => Instant;
  readonly program: string;
  readonly tell: (sentence: string) => void;
  readonly disk?: Disk;
}

/** Nothing is read or made by this: each file and folder comes to be when it is first needed. */
export const openWorkshop = (
  folder: string,
  { practice, now, program, tell, disk = realDisk }: WorkshopWish,
): Workshop => {
  const room = practice ? join(folder, 'practice') : folder;
  return {
    practice,
    folder: room,
    register: join(room, 'register.jsonl'),
    ledger: join(room, 'ledger.jsonl'),
    batches: join(room, 'batches'),
    disk,
    now,
    program,
    tell,
  };
};

/** What a lock of this workshop is asked for with. */
export const lockWish = ({ program, now }: Workshop, what: string): LockWish => ({
  what,
  program,
  since: formatInstant(now()),
});

export interface BatchFiles {
  readonly folder: string;
  readonly journal: string;
  readonly record: string;
  readonly signatures: string;
  /** The folder of what was added after closing. */
  readonly addenda: string;
}

/** The batch must be a number as `isBatchNumber` takes it: it becomes the name of a folder. */
export const filesOf = ({ batches }: Workshop, batch: string): BatchFiles => {
  const folder = join(batches, batch);
  return {
    folder,
    journal: join(folder, 'journal.jsonl'),
    record: join(folder, 'record.json'),
    signatures: join(folder, 'record.sig.json'),
    addenda: join(folder, 'addenda'),
  };
};

/** An addendum and its signature: `001.json`, `001.sig.json`. */
export const addendumFiles = ({ addenda }: BatchFiles, n: number) => {
  const name = String(n).padStart(3, '0');
  return { addendum: join(addenda, `${name}.json`), signature: join(addenda, `${name}.sig.json`) };
};
