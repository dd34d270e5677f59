/** The record of a batch of record.ts's sheet that was stretched twice, told in intents. Invented. */
import { buildRecord } from '../../src/core/result/build-record.ts';
import type { BatchRecord } from '../../src/core/result/record.ts';
import { encodeEvent } from '../../src/core/run/event-codec.ts';
import type { Intent } from '../../src/core/run/intent.ts';
import { lot, net } from './bench-sheet.ts';
import { closedRun, given } from './given.ts';
import { chain, type Json, sheetText } from './record.ts';

const stretch = (step: number, kind: 'least-stretch' | 'whole-pieces', reason: string): Intent => ({
  type: 'choose-remedy',
  step,
  kind,
  reason,
});
const tally = (item: 'good' | 'rejected' | 'samples' | 'left over' | 'crumbs', typed: string) =>
  ({ type: 'tally', step: 8, item, typed }) as const;
const piece = { type: 'tally', step: 8, item: 'weight', typed: '98.2' } as const;

/**
 * 312 g of 300 g: whole pieces are chosen and left, then the least stretch, 104/101. Line 1 is topped up
 * by 30 g instead of 17.8 g: 630 g are over 624 g, and the batch is stretched again.
 */
const story = () =>
  given(
    sheetText,
    { type: 'tick', step: 1 },
    { type: 'weigh-vessel', vessel: 'bowl' },
    lot(2, 'BIC-7'),
    net(2, '600.0'),
    lot(3, 'CIT-1'),
    net(3, '312.0'),
    stretch(3, 'whole-pieces', 'more moulds are ready'),
    { type: 'leave-remedy' },
    stretch(3, 'least-stretch', 'the scoop slipped'),
    lot(2, 'BIC-8'),
    net(2, '30.0'),
    stretch(2, 'least-stretch', 'slipped <again>'),
  );

const finish: readonly Intent[] = [
  { type: 'adjust', step: 5, typed: '2 mL' },
  { type: 'finish-adjust', step: 5 },
  { type: 'tick', step: 6 },
  { type: 'start-hold', step: 7 },
  { type: 'end-hold', step: 7, reason: 'the moulds are needed' },
  tally('good', '10'),
  tally('rejected', '0'),
  tally('samples', '0'),
  tally('left over', '0'),
  tally('crumbs', '0'),
  piece,
  piece,
];

export const stretchedRecord = (): BatchRecord => {
  const { run } = story().after(lot(4, 'CF-A'), net(4, '104.00'), ...finish, { type: 'close' });
  const closed = closedRun({ run });
  const lines = chain(closed.events.map((each): Json => ({ ...encodeEvent(each) }))).lines;
  return JSON.parse(JSON.stringify(buildRecord(closed, lines))) as BatchRecord;
};
