import { expect, test } from 'vitest';
import type { RunEvent } from '../../../src/core/run/event.ts';
import type { Intent } from '../../../src/core/run/intent.ts';
import {
  at,
  benchSheet,
  lot,
  net,
  tick,
  toClose,
  toHumidity,
  toPress,
  toRest,
  toRunningRest,
  toSalt,
  toTally,
  toWetting,
  toWitness,
  vessel,
} from '../../helpers/bench-sheet.ts';
import { beginning, given, nothingYet, type Story } from '../../helpers/given.ts';

const reason = 'scoop slipped';
const begun = given(benchSheet);
const salt = given(benchSheet, ...toSalt);
const over = salt.after(net(at.salt, '700'));
const tally = given(benchSheet, ...toTally);

// What is in it stands in core/remedy; here it matters that it is written with the decision.
const offered = expect.objectContaining({ type: 'remedies-offered', step: at.salt });

const onBig = (typed: string, mass = typed) => ({ typed, unit: 'g', mass, scale: 'big' });

/** Intents that only later versions record; refusals.test.ts shows their answer. */
type Recorded = Exclude<Intent['type'], 'set-aside' | 'add-outside' | 'next-portion'>;
type Example = readonly [story: Story, intent: Intent, ...events: RunEvent[]];

// The type makes this table complete: an intent that is not here does not compile.
const examples: Record<Recorded, readonly Example[]> = {
  begin: [
    [
      nothingYet(),
      beginning(benchSheet),
      {
        type: 'begun',
        batch: 'INV-2027-001',
        practice: false,
        program: 'tarebook 0.0.0',
        sheet: benchSheet,
        size: { by: 'sheet' },
        scales: [
          { name: 'big', capacity: '10000', readability: '0.1', unit: 'g' },
          { name: 'fine', capacity: '200', readability: '0.01', unit: 'g' },
        ],
      },
    ],
  ],
  'weigh-vessel': [
    [begun, vessel('bowl'), { type: 'vessel-weighed', vessel: 'bowl', tare: '300' }],
    // One per cent off, exactly: not asked about.
    [
      begun,
      vessel('bowl', '303.0'),
      { type: 'vessel-weighed', vessel: 'bowl', tare: '303', reading: onBig('303.0', '303') },
    ],
    [
      begun,
      { type: 'weigh-vessel', vessel: 'bowl', typed: '350', confirmed: true },
      { type: 'vessel-weighed', vessel: 'bowl', tare: '350', reading: onBig('350') },
    ],
  ],
  'identify-lot': [
    [
      salt,
      lot(at.salt, ' S 2/27 '),
      { type: 'lot-identified', step: at.salt, material: 'salt', lot: 'S 2/27' },
    ],
  ],
  read: [
    [
      salt,
      net(at.salt, '600,1'),
      {
        type: 'reading-taken',
        step: at.salt,
        way: 'net',
        part: 'display',
        reading: onBig('600,1', '600.1'),
        vessel: 'bowl',
        lot: 'S-1',
        judged: { net: '600.1', total: '600.1', verdict: 'in' },
      },
    ],
  ],
  tare: [
    [
      salt.after(net(at.salt, '500')),
      { type: 'tare', step: at.salt },
      { type: 'tared', step: at.salt },
    ],
  ],
  'take-back': [
    [
      over,
      { type: 'take-back', step: at.salt, way: 'net', part: 'display', typed: '600' },
      offered,
      {
        type: 'taken-back',
        step: at.salt,
        way: 'net',
        reading: onBig('600'),
        lifted: '100',
        judged: { net: '600', total: '600', verdict: 'in' },
      },
    ],
  ],
  amend: [
    [
      over,
      { type: 'amend', seq: 5, typed: '600', reason },
      {
        type: 'amended',
        step: at.salt,
        amends: 5,
        reading: onBig('600'),
        reason,
        judged: { net: '600', total: '600', verdict: 'in' },
      },
    ],
  ],
  'choose-remedy': [
    // 700 g of 600 g ± 1 %: the batch must grow to 700/606, that is 350/303.
    [
      over,
      { type: 'choose-remedy', step: at.salt, kind: 'least-stretch', reason },
      offered,
      {
        type: 'remedy-chosen',
        step: at.salt,
        kind: 'least-stretch',
        stretch: '350/303',
        topUps: [],
        targets: [
          { n: 2, mass: '346.5' },
          { n: 3, mass: '23.1' },
          { n: 4, mass: '92.41' },
        ],
        batchMass: '350000/303',
        pieces: 11,
        reason,
      },
    ],
  ],
  'leave-remedy': [
    [
      over.after({ type: 'choose-remedy', step: at.salt, kind: 'least-stretch', reason }),
      { type: 'leave-remedy' },
      { type: 'remedy-left', step: at.salt },
    ],
  ],
  'answer-slip': [
    // 900 g were read with the bowl of 300 g on a scale that was not tared.
    [
      salt.after(net(at.salt, '900')),
      { type: 'answer-slip', step: at.salt, answer: 'yes' },
      { type: 'slip-answered', step: at.salt, about: 5, slip: 'not-tared', answer: 'yes' },
    ],
  ],
  accept: [
    [
      over,
      { type: 'accept', step: at.salt, reason },
      offered,
      { type: 'accepted', step: at.salt, what: 'over', reason },
    ],
    [
      salt.after(net(at.salt, '590')),
      { type: 'accept', step: at.salt, reason },
      { type: 'accepted', step: at.salt, what: 'under', reason },
    ],
    [
      given(benchSheet, ...toHumidity, { type: 'measure', step: at.humidity, typed: '50.1' }),
      { type: 'accept', step: at.humidity, reason },
      { type: 'accepted', step: at.humidity, what: 'out-of-limits', reason },
    ],
    [
      given(benchSheet, ...toPress).wait(16 * 60),
      { type: 'accept', step: at.press, reason },
      { type: 'accepted', step: at.press, what: 'overdue', reason },
    ],
  ],
  tick: [[begun, tick(at.wear), { type: 'ticked', step: at.wear }]],
  'start-hold': [
    [
      given(benchSheet, ...toRest),
      { type: 'start-hold', step: at.rest },
      { type: 'hold-started', step: at.rest },
    ],
  ],
  'end-hold': [
    [
      given(benchSheet, ...toRunningRest).wait(600),
      { type: 'end-hold', step: at.rest },
      { type: 'hold-ended', step: at.rest, verdict: 'kept' },
    ],
  ],
  measure: [
    [
      given(benchSheet, ...toHumidity),
      { type: 'measure', step: at.humidity, typed: '45,5 %' },
      { type: 'measured', step: at.humidity, typed: '45,5 %', value: '45.5', verdict: 'in' },
    ],
    [
      given(benchSheet, ...toHumidity),
      { type: 'measure', step: at.humidity, typed: '19.9' },
      { type: 'measured', step: at.humidity, typed: '19.9', value: '19.9', verdict: 'under' },
    ],
  ],
  adjust: [
    [
      given(benchSheet, ...toWetting),
      { type: 'adjust', step: at.wetting, typed: '1 1/2 mL' },
      { type: 'adjusted', step: at.wetting, typed: '1 1/2 mL', mass: '1.5' },
    ],
  ],
  'finish-adjust': [
    [
      given(benchSheet, ...toWetting),
      { type: 'finish-adjust', step: at.wetting },
      { type: 'adjust-finished', step: at.wetting, total: '0' },
    ],
    [
      given(benchSheet, ...toWetting, {
        type: 'adjust',
        step: at.wetting,
        typed: '10.1 mL',
        confirmed: true,
      }),
      { type: 'finish-adjust', step: at.wetting, reason: 'dry day' },
      { type: 'adjust-finished', step: at.wetting, total: '10.1', reason: 'dry day' },
    ],
  ],
  tally: [
    [
      tally,
      { type: 'tally', step: at.tally, item: 'good', typed: '008' },
      { type: 'tallied', step: at.tally, item: 'good', typed: '008', value: '8' },
    ],
    [
      tally.after({ type: 'tally', step: at.tally, item: 'good', typed: '8' }),
      { type: 'tally', step: at.tally, item: 'rejected', typed: '2 cracked through' },
      {
        type: 'tallied',
        step: at.tally,
        item: 'rejected',
        typed: '2 cracked through',
        value: '2',
        reason: 'cracked through',
      },
    ],
  ],
  'put-later': [[salt, { type: 'put-later', step: at.salt }, { type: 'put-later', step: at.salt }]],
  'turn-to': [[salt, { type: 'turn-to', phase: 'top' }, { type: 'turned-to', phase: 'Top' }]],
  note: [
    [
      salt,
      { type: 'note', text: ' window open ' },
      { type: 'noted', text: 'window open', step: at.salt },
    ],
    [
      given(benchSheet, ...toClose),
      { type: 'note', text: 'all done' },
      { type: 'noted', text: 'all done' },
    ],
  ],
  'go-unwitnessed': [
    [
      given(benchSheet, ...toWitness),
      { type: 'go-unwitnessed', step: at.oil, reason: 'alone today' },
      { type: 'unwitnessed', step: at.oil, reason: 'alone today' },
    ],
  ],
  witness: [
    [
      given(benchSheet, ...toWitness),
      {
        type: 'witness',
        step: at.oil,
        witness: 'Bea',
        kid: 'k'.repeat(43),
        signature: 's'.repeat(86),
      },
      {
        type: 'witnessed',
        step: at.oil,
        witness: 'Bea',
        kid: 'k'.repeat(43),
        signature: 's'.repeat(86),
      },
    ],
  ],
  'hand-over': [
    [begun, { type: 'hand-over', to: '  Bea  Novak ' }, { type: 'handed-over', to: 'Bea Novak' }],
  ],
  pause: [[begun, { type: 'pause', reason: 'lunch' }, { type: 'paused', reason: 'lunch' }]],
  resume: [
    [begun.after({ type: 'pause', reason: 'lunch' }), { type: 'resume' }, { type: 'resumed' }],
  ],
  scrap: [
    [
      begun,
      { type: 'scrap', reason: 'bowl fell' },
      { type: 'closed', outcome: 'rejected', reason: 'bowl fell' },
    ],
    [
      begun.after({ type: 'pause', reason: 'lunch' }),
      { type: 'scrap', reason: 'bowl fell' },
      { type: 'closed', outcome: 'rejected', reason: 'bowl fell' },
    ],
  ],
  close: [[given(benchSheet, ...toClose), { type: 'close' }, { type: 'closed', outcome: 'made' }]],
};

const all = Object.entries(examples).flatMap(([type, each]) =>
  each.map(([story, intent, ...events], index) => ({
    type,
    number: index + 1,
    story,
    intent,
    events,
  })),
);

test.each(all)('$type is recorded, example $number', ({ story, intent, events }) => {
  story.when(intent).gives(...events);
});

// The type makes this list complete: a kind of event that is not here does not compile.
const kinds: Record<RunEvent['type'], true> = {
  begun: true,
  'vessel-weighed': true,
  'lot-identified': true,
  tared: true,
  'reading-taken': true,
  'taken-back': true,
  amended: true,
  'remedies-offered': true,
  'remedy-chosen': true,
  'remedy-left': true,
  'slip-answered': true,
  accepted: true,
  ticked: true,
  'hold-started': true,
  'hold-ended': true,
  measured: true,
  adjusted: true,
  'adjust-finished': true,
  tallied: true,
  unwitnessed: true,
  witnessed: true,
  'put-later': true,
  'turned-to': true,
  noted: true,
  paused: true,
  resumed: true,
  'handed-over': true,
  closed: true,
};

test('every kind of event follows from some intent', () => {
  const followed = new Set(
    all.flatMap(({ events }) => events.map(event => event.type ?? 'remedies-offered')),
  );
  expect([...followed].sort()).toEqual(Object.keys(kinds).sort());
});
