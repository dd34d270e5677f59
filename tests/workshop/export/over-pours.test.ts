import { expect, test } from 'vitest';
import { exportBatch } from '../../../src/workshop/export/export-batch.ts';
import { recordHtml } from '../../../src/workshop/export/html.ts';
import { nothingMore } from '../../helpers/addenda.ts';
import { stretchedRecord } from '../../helpers/over-pour-record.ts';
import { writeWorkshop } from '../../helpers/record.ts';

const page = recordHtml(stretchedRecord(), nothingMore);
const text = page.replace(/<[^>]*>/g, ' ').replace(/\s+/g, ' ');

test('each over-pour stands there with every way out, the one chosen, by whom and why', () => {
  const wanted = [
    'Over-pours: 3',
    '312.0 g in; target 300.0 g, accepted up to 303.0 g: 12.0 g above the target',
    'Whole pieces, chosen by Ana, 2027-03-04',
    'more moulds are ready – left again before anything was poured for it',
    '2.97 % bigger (× 104/101)',
    'top up: Sodium bicarbonate 17.8 g',
    'Least stretch, chosen by Ana',
    'the scoop slipped',
    'CHOSEN',
    '630.0 g in; target 617.8 g',
    'slipped &lt;again&gt;',
  ];
  expect(wanted.filter(each => !text.includes(each))).toEqual([]);
});

test('targets stand there before and after a stretch', () => {
  expect(text).toContain(
    '2. Add Sodium bicarbonate 600.0 g (594.0 g to 606.0 g) 617.8 g (611.7 g to 624.0 g)',
  );
  expect(text).toContain('The batch got bigger: target 617.8 g; accepted 611.7 g to 624.0 g');
});

const withReason = (reason: string): string => {
  const record = stretchedRecord();
  const events = record.events.map(each =>
    each['type'] === 'remedies-offered'
      ? { ...each, remedies: [{ kind: 'take-back', possible: false, reason, stretch: '1/1' }] }
      : each,
  );
  return recordHtml({ ...record, events }, nothingMore);
};

test('a way out that was none has its reason in words, or the code that a later version knows', () => {
  expect(withReason('added-since')).toContain('not possible: something else had gone into');
  expect(withReason('vessel-full')).toContain('not possible: a vessel would have overflowed');
  expect(withReason('moon-phase')).toContain('not possible: moon-phase');
});

test('what was taken back, and the size that stays, stand there too', () => {
  const done = exportBatch(writeWorkshop().folder, 'html');
  const taken = done.ok ? Buffer.from(done.value).toString('utf8') : '';
  expect(taken).toContain('Over-pours: 1');
  expect(taken).toContain('Take back, chosen by Ada');
  expect(taken).not.toContain('The batch got bigger');
});
