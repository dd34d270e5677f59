import { type ExportForm, exportBatch } from '../../workshop/export/export-batch.ts';
import { exitStatus } from '../exit-status.ts';
import { handOut } from '../hand-out.ts';
import {
  batchThere,
  isPractice,
  keptOut,
  orStop,
  theWorkshop,
  type WorkshopOptions,
} from '../the-workshop.ts';

interface ExportOptions extends WorkshopOptions {
  readonly as: ExportForm;
  readonly to: string;
}

/** Writes the record's page, its table or the record itself to a path; `-` is the standard output. */
export const exportTo = (batch: string, options: ExportOptions): number => {
  const workshop = theWorkshop(options, isPractice(batch));
  const bytes = orStop(exportBatch(batchThere(workshop, batch).folder, options.as));
  handOut(options.to, bytes, keptOut(options));
  return exitStatus.good;
};
