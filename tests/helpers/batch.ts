import { expect } from 'vitest';
import type { Opening } from '../../src/core/dialogue/bench.ts';
import type { Intent } from '../../src/core/run/intent.ts';
import type { RunSession } from '../../src/core/run/session.ts';
import type { Disk } from '../../src/workshop/disk.ts';
import { beginBatch, type HeldBatch } from '../../src/workshop/open-batch.ts';
import { openWorkshop, type Workshop } from '../../src/workshop/workshop.ts';
import { saltSheet } from './salt-sheet.ts';
import { sheetOfText } from './sheet-text.ts';

export const saltOpening = (practice = false): Opening => ({
  sheet: sheetOfText(saltSheet),
  sheetText: saltSheet,
  size: { by: 'sheet' },
  practice,
});

/** A workshop whose clock goes on by a second with each look, from 2027-03-04 09:00 at +01:00. */
export const workshopIn = (
  folder: string,
  more: { practice?: boolean; disk?: Disk; told?: string[] } = {},
): Workshop => {
  let ms = Date.UTC(2027, 2, 4, 8);
  return openWorkshop(folder, {
    practice: more.practice ?? false,
    now: () => {
      ms += 1000;
      return { epochMs: ms, offset: 60 };
    },
    program: 'tarebook 0.0.0',
    tell: sentence => more.told?.push(sentence),
    ...(more.disk === undefined ? {} : { disk: more.disk }),
  });
};

/** All that follows on the beginning, one intent a step. */
export const saltSteps: readonly Intent[] = [
  { type: 'weigh-vessel', vessel: 'bowl' },
  { type: 'read', step: 1, way: 'net', part: 'display', typed: '80.0' },
  { type: 'read', step: 2, way: 'net', part: 'display', typed: '20.1' },
  { type: 'close' },
];

export const doAll = (session: RunSession, intents: readonly Intent[]): void => {
  for (const intent of intents) {
    expect(session.dispatch(intent)).toMatchObject({ kind: 'done' });
  }
};

export const begun = (workshop: Workshop, by = 'Ana'): HeldBatch => {
  const held = beginBatch(workshop, saltOpening(workshop.practice), [], { by });
  if (!held.ok) throw new Error(held.why);
  return held.value;
};

/** A batch of Ana's, walked to its end and let go; answers its number. */
export const closedBatch = (workshop: Workshop): string => {
  const { session, release } = begun(workshop);
  doAll(session, saltSteps);
  const run = session.state();
  release();
  if (run.phase !== 'closed') throw new Error('not closed');
  return run.batch;
};
