import { existsSync } from 'node:fs';
import { harmlessLines } from '../core/dialogue/harmless.ts';
import type { Scale } from '../core/plan/plan.ts';
import { isBatchNumber } from '../workshop/number.ts';
import { readRegister, scalesOf } from '../workshop/register.ts';
import { type BatchFiles, filesOf, openWorkshop, type Workshop } from '../workshop/workshop.ts';
import { clock } from './clock.ts';
import { exitStatus } from './exit-status.ts';
import { keysFolder, workshopFolder } from './places.ts';
import { Stop } from './stop.ts';
import { programName } from './version.ts';

export interface WorkshopOptions {
  readonly workshop?: string;
}

/** Folders that no export may write into: the records and the keys. */
export const keptOut = (options: WorkshopOptions): readonly string[] => [
  workshopFolder(options.workshop),
  keysFolder(),
];

/** The workshop, or its practice room, of this call. */
export const theWorkshop = (options: WorkshopOptions, practice: boolean): Workshop =>
  openWorkshop(workshopFolder(options.workshop), {
    practice,
    now: clock,
    program: programName,
    tell: sentence => void process.stderr.write(`${harmlessLines(sentence)}\n`),
  });

/** Practice batches are told by their numbers. */
export const isPractice = (batch: string): boolean => batch.startsWith('P-');

/** The files of a batch that is there; its number comes from the command line. Stops with status 3. */
export const batchThere = (workshop: Workshop, batch: string): BatchFiles => {
  const files = isBatchNumber(batch) ? filesOf(workshop, batch) : undefined;
  if (files !== undefined && existsSync(files.folder)) return files;
  throw new Stop(exitStatus.missing, `There is no batch of that number in ${workshop.folder}.`);
};

/** The value, or a stop with status 3 that says why not. */
export const orStop = <T>(
  done: { readonly ok: true; readonly value: T } | { readonly ok: false; readonly why: string },
): T => {
  if (done.ok) return done.value;
  throw new Stop(exitStatus.missing, done.why);
};

/** The scales that are in use. Stops with status 3 where the register cannot be read. */
export const scalesInUse = (workshop: Workshop): readonly Scale[] =>
  scalesOf(orStop(readRegister(workshop)));
