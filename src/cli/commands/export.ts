import { writeFileSync } from 'node:fs';
import { basename } from 'node:path';
import { type ExportForm, exportBatch } from '../../workshop/export/export-batch.ts';
import { exitStatus } from '../exit-status.ts';
import { Stop } from '../stop.ts';
import {
  batchThere,
  isPractice,
  orStop,
  theWorkshop,
  type WorkshopOptions,
} from '../the-workshop.ts';

interface ExportOptions extends WorkshopOptions {
  readonly as: ExportForm;
  readonly to: string;
}

/** Writes the record's page or the record itself to a path; `-` is the standard output. */
export const exportTo = (batch: string, options: ExportOptions): number => {
  const workshop = theWorkshop(options, isPractice(batch));
  const bytes = orStop(exportBatch(batchThere(workshop, batch).folder, options.as));
  if (options.to === '-') {
    process.stdout.write(bytes);
    return exitStatus.good;
  }
  try {
    writeFileSync(options.to, bytes);
  } catch (error) {
    throw new Stop(
      exitStatus.missing,
      `${basename(options.to)} cannot be written: ${String(error)}`,
    );
  }
  process.stdout.write(`${options.to} is written.\n`);
  return exitStatus.good;
};
