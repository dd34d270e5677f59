import { describe, expect, test } from 'vitest';
import { recordHtml } from '../../../src/workshop/export/html.ts';
import { nothingMore } from '../../helpers/addenda.ts';
import { type Json, scales, writeWorkshop } from '../../helpers/record.ts';

const [big = {}, fine = {}] = scales;

/** The page of the hand-written record, with more known of its scales when it was begun. */
const pageOf = (known: Json, begun: Json = {}): string => {
  const all = [{ ...big, ...known }, fine];
  const { record } = writeWorkshop({
    events: ([first, ...others]) => [{ ...first, scales: all, ...begun }, ...others],
    record: written => ({ ...written, plan: { ...(written['plan'] as Json), scales: all } }),
  });
  return recordHtml(record as never, nothingMore);
};

const cells = (page: string, head: string): readonly string[] => {
  const [, row = ''] =
    new RegExp(`<th scope="row">(?:<b>)?${head}(?:</b>)?</th>(.*?)</tr>`, 's').exec(page) ?? [];
  return [...row.matchAll(/<td[^>]*>(.*?)<\/td>/gs)].map(([, cell = '']) =>
    cell.replace(/<[^>]+>/g, '').replace(/\s+/g, ' '),
  );
};

describe('the uncertainty of what was weighed in', () => {
  test('comes from the scales of the record, by hand', () => {
    const page = pageOf({ interval: '1', accuracyClass: 'III' });
    // In service 2 g at 600 e, 1 g at 302 e; u² = 0.1²/6 + 2²/3 = 1.335, 0.1²/6 + 1/3 = 0.335.
    expect(cells(page, 'Sodium bicarbonate')[1]).toBe('±2.3 g');
    expect(cells(page, 'Citric acid, fine')[1]).toBe('±1.2 g');
    // Two lots, so two weighings: u² = 2 · 0.01²/6; nothing is known of this scale beyond its display.
    expect(cells(page, 'Cornflour &amp; starch')[1]).toBe('over ±0.012 g');
    // What one scale is off adds up: (2 + 1)²/3 + 2 · 0.1²/6 + 2 · 0.01²/6 = 3.003 367.
    expect(cells(page, 'All')[1]).toBe('over ±3.5 g');
    // By the law of propagation, with q = 600 / 1002.5: U = 0.000 242 8.
    expect(cells(page, 'Sodium bicarbonate')[3]).toBe('over ±0.024 %');
    // An adjust step is measured, not weighed.
    expect(cells(page, 'Water').slice(1, 4)).toEqual(['', '0.1987 %', '']);
  });
});

describe('the scales on the page', () => {
  const lastCheck = { at: '2027-01-30T08:00:00.000+01:00', verdict: 'within' };
  const asked = { scaleCheck: { within: 86_400, otherwise: 'deviation' } };

  test('are told with what is known of them', () => {
    const page = pageOf({ interval: '1', accuracyClass: 'III', lastCheck });
    expect(page).toContain('No check of the scales was asked for');
    expect(cells(page, 'big')).toEqual(
      ['10 000 g', '0.1 g', 'III', '1 g', '20 g, by class', '2027-01-30 08:00, within', ''].map(
        text => expect.stringMatching(text.replace(' 000', '.000').replaceAll(' ', '.')),
      ),
    );
    expect(cells(page, 'fine').at(-2)).toBe('never');
  });

  test('are marked where they were not checked in the time that was asked for', () => {
    const page = pageOf({ lastCheck }, asked);
    expect(page).toContain('A check within 24 h before the batch was asked for.');
    expect(cells(page, 'big').at(-1)).toBe('NOT CHECKED');
    const later = { ...lastCheck, at: '2027-01-30T09:00:00.000+01:00' };
    expect(cells(pageOf({ lastCheck: later }, asked), 'big').at(-1)).toBe('');
    expect(cells(pageOf({ lastCheck: { ...later, verdict: 'beyond' } }), 'big').at(-1)).toBe(
      'NOT CHECKED',
    );
  });
});
