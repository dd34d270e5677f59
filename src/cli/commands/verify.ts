import { existsSync } from 'node:fs';
import { join } from 'node:path';
import { type BatchReport, verifyBatch } from '../../workshop/verify/verify-batch.ts';
import { verifyWorkshop, type WorkshopReport } from '../../workshop/verify/verify-workshop.ts';
import { exitStatus } from '../exit-status.ts';
import { workshopFolder } from '../places.ts';
import { Stop } from '../stop.ts';

interface VerifyOptions {
  readonly workshop?: string;
  readonly json?: boolean;
}

type Report = { readonly where: string } & (BatchReport | WorkshopReport);

const batchFolder = (workshop: string, batch: string): string =>
  join(workshop, ...(batch.startsWith('P-') ? ['practice'] : []), 'batches', batch);

const isBatch = (path: string): boolean =>
  ['record.json', 'journal.jsonl'].some(name => existsSync(join(path, name)));

/** A batch by number or folder, or a workshop's folder. */
const verifyOne = (workshop: string, named: string): Report => {
  const byNumber = batchFolder(workshop, named);
  const path = /^[A-Z0-9-]+$/.test(named) && existsSync(byNumber) ? byNumber : named;
  if (!existsSync(path))
    throw new Stop(exitStatus.missing, `There is no batch and no folder ${named}.`);
  return isBatch(path)
    ? { where: path, ...verifyBatch(path) }
    : { where: path, ...verifyWorkshop(path) };
};

/** The workshop, and its practice room where there is one. */
const roomsOf = (workshop: string): readonly string[] => {
  const practice = join(workshop, 'practice');
  const rooms = [workshop, practice].filter(room => existsSync(join(room, 'batches')));
  return rooms.length === 0 ? [workshop] : rooms;
};

const marks = {
  holds: 'holds',
  fails: 'FAILS',
  'not-checked': 'not checked',
  unfinished: 'UNFINISHED',
} as const;

const linesOf = (report: BatchReport | WorkshopReport): readonly string[] => {
  const claims = report.claims.map(
    ({ claim, state, text }) => `  ${marks[state]}  ${claim}: ${text}`,
  );
  if (!('batches' in report)) return [`${report.batch}: ${report.verdict}`, ...claims];
  return [...report.batches.flatMap(linesOf), `The books: ${report.verdict}`, ...claims];
};

const shownOf = (report: Report): string =>
  [...linesOf(report), `${report.where}: ${report.verdict}.`].join('\n');

/** Verifies batches and workshops from their bytes and keys alone; without a name, the workshop in use. */
export const verify = async (named: readonly string[], options: VerifyOptions): Promise<number> => {
  const workshop = workshopFolder(options.workshop);
  const reports = (named.length === 0 ? roomsOf(workshop) : named).map(name =>
    verifyOne(workshop, name),
  );
  process.stdout.write(
    `${options.json === true ? JSON.stringify(reports, null, 2) : reports.map(shownOf).join('\n\n')}\n`,
  );
  return worstStatus(reports.map(each => each.status));
};

// A broken record outweighs an unreadable one, and that one an unfinished closing.
const worstStatus = (all: readonly number[]): number =>
  [exitStatus.doesNotHold, exitStatus.missing, exitStatus.unfinished].find(status =>
    all.includes(status),
  ) ?? exitStatus.good;
