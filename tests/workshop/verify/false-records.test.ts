import { describe, expect, test } from 'vitest';
import { type Json, type Wishes, writeWorkshop } from '../../helpers/record.ts';
import { notHolding, statusOf } from '../../helpers/tamper.ts';

const within = (record: Json, key: string, change: (inner: Json) => Json): Json => ({
  ...record,
  [key]: change(record[key] as Json),
});

/** Changes one event of a kind: the first, or the one after so many. */
const event = (
  list: readonly Json[],
  type: string,
  change: (event: Json) => Json,
  skip = 0,
): Json[] => {
  let seen = 0;
  return list.map(each => (each['type'] === type && seen++ === skip ? change(each) : each));
};

const judged = (each: Json, verdict: string): Json => ({
  ...each,
  judged: { ...(each['judged'] as Json), verdict },
});

/** Changes one of the remedies that were offered. */
const remedy = (list: readonly Json[], at: number, change: (remedy: Json) => Json): Json[] =>
  event(list, 'remedies-offered', each => ({
    ...each,
    remedies: (each['remedies'] as Json[]).map((one, index) => (index === at ? change(one) : one)),
  }));

describe('a record that is signed and chained rightly, but says something false', () => {
  const lies: readonly (readonly [string, Wishes, readonly string[]])[] = [
    [
      'of another batch',
      { record: record => ({ ...record, batch: 'PRF-2027-009' }) },
      ['number: other-batch', 'sheet: differs'],
    ],
    [
      'of practice',
      { record: record => ({ ...record, practice: true }) },
      ['number: practice', 'sheet: differs'],
    ],
    [
      'of another type',
      { record: record => ({ ...record, type: 'application/json' }) },
      ['record: unknown-type'],
    ],
    [
      'of a later version',
      {
        record: record => ({
          ...record,
          type: 'application/vnd.tarebook.batch-record+json;version=9',
        }),
      },
      ['record: unknown-type'],
    ],
    [
      'with a part too many',
      { record: record => ({ ...record, more: 1 }) },
      ['record: wrong-shape'],
    ],
    [
      'with its parts in another order',
      { record: ({ type, ...rest }) => ({ ...rest, type }) },
      ['record: wrong-shape'],
    ],
    [
      'another revision of the sheet',
      { record: record => within(record, 'sheet', sheet => ({ ...sheet, revision: 3 })) },
      ['sheet: differs'],
    ],
    [
      'a sheet that is none',
      { record: record => within(record, 'sheet', sheet => ({ ...sheet, text: 'sheet: {' })) },
      ['sheet: not-workable'],
    ],
    [
      'another sheet than it was begun with',
      {
        record: record =>
          within(record, 'sheet', sheet => ({
            ...sheet,
            text: `${String(sheet['text'])}# later\n`,
          })),
      },
      ['sheet: differs'],
    ],
    [
      'more pieces in the plan',
      { record: record => within(record, 'plan', plan => ({ ...plan, pieces: 11 })) },
      ['plan: differs'],
    ],
    [
      'a total a little higher',
      {
        record: record => within(record, 'result', result => ({ ...result, massIn: '1004.4961' })),
      },
      ['result: differs'],
    ],
    [
      'a zero more than stated',
      {
        record: record => within(record, 'result', result => ({ ...result, massIn: '1004.4960' })),
      },
      ['result: differs'],
    ],
    [
      'no deviation',
      { record: record => within(record, 'result', result => ({ ...result, deviations: [] })) },
      ['result: differs'],
    ],
    [
      'another last event',
      { record: record => within(record, 'journal', journal => ({ ...journal, lines: 29 })) },
      ['events: wrong-head'],
    ],
    [
      'an over-pour called in',
      { events: list => event(list, 'reading-taken', each => judged(each, 'in'), 2) },
      ['verdicts: differs'],
    ],
    [
      'an early hold called kept',
      {
        events: list =>
          event(list, 'hold-ended', ({ reason: _reason, ...each }) => ({
            ...each,
            verdict: 'kept',
          })),
      },
      ['verdicts: differs', 'result: differs'],
    ],
    [
      'less lifted out than was',
      { events: list => event(list, 'taken-back', each => ({ ...each, lifted: '9' })) },
      ['verdicts: differs'],
    ],
    [
      'a top-up a division more than it was',
      { events: list => remedy(list, 1, each => ({ ...each, topUps: [{ n: 1, mass: '17.9' }] })) },
      ['verdicts: differs'],
    ],
    [
      'a remedy called impossible',
      {
        events: list =>
          remedy(list, 4, ({ kind }) => ({
            kind,
            possible: false,
            reason: 'limit',
            stretch: '1/1',
          })),
      },
      ['verdicts: differs'],
    ],
    [
      'a remedy that nobody was shown left out',
      {
        events: list =>
          event(list, 'remedies-offered', each => ({
            ...each,
            remedies: (each['remedies'] as Json[]).slice(0, 5),
          })),
      },
      ['verdicts: differs'],
    ],
    [
      'nothing of what could be done',
      { events: list => list.filter(each => each['type'] !== 'remedies-offered') },
      ['verdicts: not-workable'],
    ],
    [
      'millilitres taken for grams',
      { events: list => event(list, 'adjusted', each => ({ ...each, mass: '2' })) },
      ['verdicts: differs'],
    ],
    [
      'a lot that was not identified',
      { events: list => event(list, 'reading-taken', each => ({ ...each, lot: 'BIC-8' })) },
      ['verdicts: differs'],
    ],
    [
      'grams that the typed text does not say',
      {
        events: list =>
          event(list, 'reading-taken', each => ({
            ...each,
            reading: { typed: '35.0', unit: 'g', mass: '350', scale: 'big' },
          })),
      },
      ['verdicts: differs'],
    ],
    [
      'a step left out',
      { events: list => list.filter(each => each['type'] !== 'ticked') },
      ['verdicts: not-workable'],
    ],
    [
      'an event of no known kind',
      { events: list => event(list, 'ticked', each => ({ ...each, type: 'blessed' })) },
      ['verdicts: not-workable'],
    ],
    [
      'an event with a part too many',
      { events: list => event(list, 'ticked', each => ({ ...each, quietly: true })) },
      ['verdicts: not-workable'],
    ],
    [
      'no end',
      { events: list => list.slice(0, -1) },
      ['events: not-closed', 'result: not-workable'],
    ],
  ];
  test.each(lies)('%s', (_name, wishes, expected) => {
    const { folder } = writeWorkshop(wishes);
    expect(notHolding(folder)).toEqual(expected);
    expect(statusOf(folder)).toBe(1);
  });
});
