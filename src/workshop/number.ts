import { join } from 'node:path';
import type { Done } from '../core/dialogue/bench.ts';
import { localDate } from '../core/time/instant.ts';
import { ensureFolder, listIfThere, syncFolder } from './disk.ts';
import { attempt } from './disk-error.ts';
import { readLedger } from './ledger.ts';
import type { Workshop } from './workshop.ts';

const batchNumber = /^(?:P-)?[A-Z][A-Z0-9]{1,7}-\d{4}-\d{3,9}$/;

/** Whether text has the form of a batch number; only such text may name a folder. */
export const isBatchNumber = (text: string): boolean => batchNumber.test(text);

const highestOf = (numbers: readonly string[], stem: string): number =>
  numbers
    .filter(number => number.startsWith(stem) && /^\d{3,9}$/.test(number.slice(stem.length)))
    .reduce((highest, number) => Math.max(highest, Number(number.slice(stem.length))), 0);

/**
 * The number that the next batch of a code gets: CODE-YEAR-NNN by the local year, P- before it in
 * practice. Folders and ledger both count, so a number is not given again when its folder is gone.
 */
export const nextNumber = (workshop: Workshop, code: string): Done<string> => {
  const { disk, batches, practice, now } = workshop;
  const ledger = readLedger(workshop);
  if (!ledger.ok) return ledger;
  const folders = attempt('The batches could not be listed', () => listIfThere(disk, batches));
  if (!folders.ok) return folders;
  const stem = `${practice ? 'P-' : ''}${code}-${localDate(now()).year}-`;
  const closed = ledger.value.flatMap(line => (line.type === 'closed' ? line.batch : []));
  const n = highestOf([...folders.value, ...closed], stem) + 1;
  const number = `${stem}${String(n).padStart(3, '0')}`;
  return isBatchNumber(number)
    ? { ok: true, value: number }
    : { ok: false, why: `The code ${code} cannot number batches. Use letters and digits.` };
};

/** Gives the number away: its folder is made, which fails when another took it at the same moment. */
export const takeNumber = ({ disk, batches }: Workshop, number: string): Done =>
  attempt(`The folder of ${number} could not be made`, () => {
    ensureFolder(disk, batches);
    disk.makeFolder(join(batches, number));
    syncFolder(disk, batches);
    return true;
  });
