import { openWorkshop, type Workshop } from '../workshop/workshop.ts';
import { clock } from './clock.ts';
import { exitStatus } from './exit-status.ts';
import { workshopFolder } from './places.ts';
import { preference } from './preferences.ts';
import { Stop } from './stop.ts';
import { programName } from './version.ts';

export interface WorkshopOptions {
  readonly workshop?: string;
}

export const folderOf = ({ workshop }: WorkshopOptions): string =>
  workshopFolder(workshop, () => preference('workshop'));

/** The workshop, or its practice room, of this call. */
export const theWorkshop = (options: WorkshopOptions, practice: boolean): Workshop =>
  openWorkshop(folderOf(options), {
    practice,
    now: clock,
    program: programName,
    tell: sentence => void process.stderr.write(`${sentence}\n`),
  });

/** Practice batches are told by their numbers. */
export const isPractice = (batch: string): boolean => batch.startsWith('P-');

/** The value, or a stop with status 3 that says why not. */
export const orStop = <T>(
  done: { readonly ok: true; readonly value: T } | { readonly ok: false; readonly why: string },
): T => {
  if (done.ok) return done.value;
  throw new Stop(exitStatus.missing, done.why);
};
