import { expect, test } from 'vitest';
import type { BatchRecord } from '../../../../src/core/result/record.ts';
import { recompute } from '../../../../src/workshop/verify/recompute/recompute.ts';
import { stretchedRecord } from '../../../helpers/over-pour-record.ts';
import type { Json } from '../../../helpers/record.ts';

const record = stretchedRecord();

/** The record with one event changed: of that kind, after so many others of it. */
const changed = (type: string, skip: number, change: (event: Json) => Json): BatchRecord => {
  let seen = 0;
  return {
    ...record,
    events: record.events.map(each =>
      each['type'] === type && seen++ === skip ? change({ ...each }) : each,
    ),
  };
};

const without = (type: string, skip: number): BatchRecord => {
  let seen = 0;
  return {
    ...record,
    events: record.events.filter(each => !(each['type'] === type && seen++ === skip)),
  };
};

const verdictsOf = (given: BatchRecord): string => {
  const { verdicts } = recompute(given);
  if (verdicts.kind === 'stopped') return verdicts.why;
  if (verdicts.kind !== 'worked-out') return verdicts.kind;
  return verdicts.differences.map(each => each.path).join(', ');
};

test('a batch that was stretched, left and stretched again holds', () => {
  const nothing = { kind: 'worked-out', differences: [] };
  expect(recompute(record)).toEqual({
    sheet: nothing,
    plan: nothing,
    verdicts: nothing,
    result: nothing,
  });
});

const numbers: readonly (readonly [string, unknown])[] = [
  ['stretch', '105/101'],
  ['topUps', [{ n: 1, mass: '17.9' }]],
  ['targets', []],
  ['batchMass', '1029'],
  ['pieces', 12],
];
test.each(numbers)('another %s of the remedy chosen is found', (key, value) => {
  // The first one was left: it changes nothing that comes after, and is found all the same.
  for (const skip of [0, 1, 2]) {
    const given = changed('remedy-chosen', skip, each => ({ ...each, [key]: value }));
    expect(verdictsOf(given), `${skip}`).toMatch(new RegExp(`events\\[\\d+\\]\\.${key}`));
  }
});

const lies: readonly (readonly [string, BatchRecord, string])[] = [
  [
    'another remedy than the numbers say',
    changed('remedy-chosen', 1, each => ({ ...each, kind: 'exact-proportion' })),
    'no line there is over',
  ],
  [
    'a choice without an offer',
    without('remedies-offered', 1),
    'before it was said what could be done',
  ],
  [
    'a choice without a reason',
    changed('remedy-chosen', 1, each => ({ ...each, reason: '' })),
    'no reason',
  ],
  [
    'an offer of other numbers',
    changed('remedies-offered', 2, each => ({ ...each, remedies: [] })),
    '.remedies',
  ],
  [
    'an offer at another line',
    changed('remedies-offered', 1, each => ({ ...each, step: 2 })),
    'no line there is over',
  ],
  ['leaving what was not chosen', without('remedy-chosen', 0), 'no remedy that could be left'],
  // Without it the next offer is one on a larger batch, where nothing is over.
  ['leaving kept from the record', without('remedy-left', 0), 'no line there is over'],
  ['a stretch kept from the record', without('remedy-chosen', 2), 'step 2 was neither finished'],
  [
    'a top-up called in its window',
    changed('reading-taken', 2, each => ({
      ...each,
      judged: { ...(each['judged'] as Json), verdict: 'in' },
    })),
    '.judged',
  ],
];
test.each(lies)('%s is found', (_name, given, expected) => {
  expect(verdictsOf(given)).toContain(expected);
});

test('an answer about another reading, of no known slip, or where nothing was asked is found', () => {
  const answered = (about: number, slip: string): BatchRecord => {
    const at = record.events.findIndex(each => each['type'] === 'remedies-offered');
    const answer = {
      ...record.events[at],
      type: 'slip-answered',
      step: 3,
      about,
      slip,
      answer: 'no',
    };
    const { remedies: _remedies, ...event } = answer as Json;
    return { ...record, events: record.events.toSpliced(at, 0, event) };
  };
  const seq = Number(
    record.events.findLast(each => each['step'] === 3 && 'judged' in each)?.['seq'],
  );
  expect(verdictsOf(answered(seq, 'not-tared'))).toBe('');
  expect(verdictsOf(answered(seq - 1, 'not-tared'))).toContain('.about');
  expect(verdictsOf(answered(seq, 'bewitched'))).toContain('no such slip');
});
