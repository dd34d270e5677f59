import { expect, test } from 'vitest';
import { decide } from '../../../src/core/run/decide.ts';
import type { Intent } from '../../../src/core/run/intent.ts';
import { type RefusalCode, refusalCodes } from '../../../src/core/run/refusal.ts';
import {
  at,
  benchSheet,
  lot,
  net,
  tick,
  toClose,
  toHumidity,
  toOil,
  toPress,
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
const oil = given(benchSheet, ...toOil);

type Refused = readonly [Story, Intent];

// The type makes this table complete: a code that is not here does not compile.
const examples: Record<RefusalCode, readonly Refused[]> = {
  'not-begun': [[nothingYet(), { type: 'resume' }]],
  'already-begun': [[begun, beginning(benchSheet)]],
  'already-closed': [
    [begun.after({ type: 'scrap', reason }), { type: 'note', text: 'too late' }],
    [given(benchSheet, ...toClose, { type: 'close' }), { type: 'scrap', reason }],
  ],
  paused: [
    [begun.after({ type: 'pause', reason }), tick(at.wear)],
    [begun.after({ type: 'pause', reason }), { type: 'pause', reason }],
  ],
  'not-paused': [[begun, { type: 'resume' }]],
  'not-this-step': [
    [begun, tick(at.stir)],
    [begun, tick(999)],
    [given(benchSheet, ...toClose), tick(at.wear)],
  ],
  'wrong-kind': [
    [begun, { type: 'start-hold', step: at.wear }],
    [begun, lot(at.wear, 'S-1')],
    [begun, { type: 'put-later', step: at.wear }],
    [begun, net(at.wear, '600')],
    [salt, tick(at.salt)],
    [salt.after(net(at.salt, '500')), { type: 'put-later', step: at.salt }],
  ],
  'vessel-not-weighed': [[begun.after(tick(at.wear)), net(at.salt, '600')]],
  'vessel-known': [
    [salt, vessel('bowl')],
    [begun, vessel('bucket')],
  ],
  'tare-far-off': [
    [begun, vessel('bowl', '303.1')],
    [begun, vessel('bowl', '296.9')],
  ],
  'no-lot': [[begun.after(tick(at.wear), vessel('bowl')), net(at.salt, '600')]],
  'lot-known': [[given(benchSheet, ...toWetting), lot(at.wetting, 'tap')]],
  'bad-lot': [
    [salt, lot(at.salt, '')],
    [salt, lot(at.salt, 'x'.repeat(41))],
    [salt, lot(at.salt, 'S\u202e1')],
  ],
  'bad-reading': [
    [salt, net(at.salt, 'about six hundred')],
    [begun, vessel('bowl', '3 0 0')],
    [given(benchSheet, ...toHumidity), { type: 'measure', step: at.humidity, typed: 'dry' }],
    [given(benchSheet, ...toWetting), { type: 'adjust', step: at.wetting, typed: '2' }],
    [given(benchSheet, ...toWetting), { type: 'adjust', step: at.wetting, typed: '2 buckets' }],
    [given(benchSheet, ...toWetting), { type: 'adjust', step: at.wetting, typed: '0 mL' }],
  ],
  'ambiguous-reading': [
    [salt, net(at.salt, '1,600')],
    [given(benchSheet, ...toHumidity), { type: 'measure', step: at.humidity, typed: '1,040' }],
    [given(benchSheet, ...toWetting), { type: 'adjust', step: at.wetting, typed: '1,234 mL' }],
  ],
  'too-many-decimals': [[salt, net(at.salt, '600.05')]],
  'wrong-unit': [[salt, net(at.salt, '600 mL')]],
  'negative-net': [
    [salt, net(at.salt, '-600')],
    [salt, { type: 'read', step: at.salt, way: 'gross', part: 'display', typed: '299.9' }],
    [
      salt.after({ type: 'read', step: at.salt, way: 'difference', part: 'before', typed: '900' }),
      { type: 'read', step: at.salt, way: 'difference', part: 'after', typed: '900.1' },
    ],
    [
      salt.after({ type: 'read', step: at.salt, way: 'difference', part: 'before', typed: '900' }),
      { type: 'read', step: at.salt, way: 'difference', part: 'after', typed: '-5' },
    ],
    [over, { type: 'take-back', step: at.salt, way: 'gross', part: 'display', typed: '250' }],
  ],
  'reading-fell': [[salt.after(net(at.salt, '500')), net(at.salt, '499.9')]],
  'over-capacity': [[salt, net(at.salt, '10000.1')]],
  'wrong-part': [
    [salt, { type: 'read', step: at.salt, way: 'net', part: 'before', typed: '900' }],
    [salt, { type: 'read', step: at.salt, way: 'difference', part: 'after', typed: '300' }],
    [over, { type: 'take-back', step: at.salt, way: 'cup', part: 'residue', typed: '100' }],
  ],
  'nothing-read': [
    [salt, net(at.salt, '0')],
    [begun, vessel('bowl', '0')],
    [salt, { type: 'tare', step: at.salt }],
    [salt, { type: 'read', step: at.salt, way: 'difference', part: 'before', typed: '0' }],
    [over, { type: 'take-back', step: at.salt, way: 'net', part: 'display', typed: '700' }],
  ],
  'decision-due': [
    [over, net(at.salt, '710')],
    [over, { type: 'tare', step: at.salt }],
    [over, lot(at.salt, 'S-2')],
    [over, { type: 'put-later', step: at.salt }],
  ],
  // The other phase goes into the same bowl.
  'cannot-take-back': [
    [
      given(
        benchSheet
          .replace('{name: jug, tare: 200 g}', '{name: bowl, tare: 300 g, holds: 3 kg}')
          .replace('        empties: bowl\n', ''),
        ...toSalt,
        net(at.salt, '700'),
        { type: 'turn-to', phase: 'Top' },
        lot(at.wax, 'W-1'),
        net(at.wax, '80'),
      ),
      { type: 'take-back', step: at.salt, way: 'net', part: 'display', typed: '600' },
    ],
  ],
  'limit-would-break': [[oil.after(net(at.oil, '25')), { type: 'accept', step: at.oil, reason }]],
  'reason-missing': [
    [begun, { type: 'scrap', reason: ' ' }],
    [begun, { type: 'scrap', reason: '12' }],
    [begun, { type: 'scrap', reason: 'x'.repeat(501) }],
    [begun, { type: 'pause', reason: 'ok' }],
    [over, { type: 'accept', step: at.salt, reason: '' }],
    [given(benchSheet, ...toWitness), { type: 'go-unwitnessed', step: at.oil, reason: '-' }],
    [
      given(benchSheet, ...toTally).after({
        type: 'tally',
        step: at.tally,
        item: 'good',
        typed: '9',
      }),
      { type: 'tally', step: at.tally, item: 'rejected', typed: '1' },
    ],
  ],
  'bad-note': [
    [begun, { type: 'note', text: '' }],
    [begun, { type: 'note', text: 'x'.repeat(501) }],
    [begun, { type: 'note', text: 'red\u001b[31m' }],
  ],
  overdue: [[given(benchSheet, ...toPress).wait(16 * 60), tick(at.press)]],
  'hold-not-kept': [
    [given(benchSheet, ...toRunningRest).wait(599), { type: 'end-hold', step: at.rest }],
    [given(benchSheet, ...toRunningRest).wait(1801), { type: 'end-hold', step: at.rest }],
  ],
  'adjust-over-most': [
    [
      given(benchSheet, ...toWetting).after({
        type: 'adjust',
        step: at.wetting,
        typed: '11 mL',
        confirmed: true,
      }),
      { type: 'finish-adjust', step: at.wetting },
    ],
  ],
  'adjust-far-off': [
    [given(benchSheet, ...toWetting), { type: 'adjust', step: at.wetting, typed: '11 ml' }],
  ],
  'count-far-off': [
    [given(benchSheet, ...toTally), { type: 'tally', step: at.tally, item: 'good', typed: '900' }],
  ],
  'bad-count': [
    [given(benchSheet, ...toTally), { type: 'tally', step: at.tally, item: 'good', typed: 'nine' }],
    [given(benchSheet, ...toTally), { type: 'tally', step: at.tally, item: 'good', typed: '9.5' }],
    [
      given(benchSheet, ...toTally),
      { type: 'tally', step: at.tally, item: 'good', typed: '9 jars' },
    ],
  ],
  'bad-tally': [
    [given(benchSheet, ...toTally), { type: 'tally', step: at.tally, item: 'samples', typed: '1' }],
  ],
  'not-finished': [[begun, { type: 'close' }]],
  'not-amendable': [
    [salt, { type: 'amend', seq: 1, typed: '600', reason }],
    [salt, { type: 'amend', seq: 999, typed: '600', reason }],
    [
      given(benchSheet, ...toSalt, net(at.salt, '350'), net(at.salt, '580')),
      { type: 'amend', seq: 5, typed: '340', reason },
    ],
  ],
  'no-such-phase': [
    [begun, { type: 'turn-to', phase: 'Cellar' }],
    [begun, { type: 'turn-to', phase: '' }],
    [begun, { type: 'turn-to', phase: 'finish' }],
    [given(benchSheet, ...toTally), { type: 'turn-to', phase: 'Top' }],
    [given(benchSheet, ...toClose), { type: 'turn-to', phase: 'Base' }],
  ],
  'bad-sheet': [
    [nothingYet(), beginning('sheet: nothing else')],
    [nothingYet(), beginning(benchSheet.replace('tolerance: 1 %', 'tolerance: 0.01 g'))],
  ],
  'scale-unchecked': [
    [
      nothingYet(),
      beginning(benchSheet.replace('tolerance: 1 %', 'tolerance: 1 %\nscale check: 24 h')),
    ],
  ],
  'remedy-impossible': [
    // A bowl that holds 1 kg takes no 920 g · 700/606.
    [
      given(benchSheet.replace('holds: 3 kg', 'holds: 1 kg'), ...toSalt, net(at.salt, '700')),
      { type: 'choose-remedy', step: at.salt, kind: 'least-stretch', reason },
    ],
  ],
  'remedy-under-way': [[begun, { type: 'leave-remedy' }]],
  'no-slip': [[salt, { type: 'answer-slip', step: at.salt, answer: 'no' }]],
  'bad-name': [
    [begun, { type: 'hand-over', to: '' }],
    [begun, { type: 'hand-over', to: 'Ana' }],
    [begun, { type: 'hand-over', to: '7' }],
    [
      given(benchSheet, ...toWitness),
      { type: 'witness', step: at.oil, witness: 'Ana', kid: '', signature: '' },
    ],
    [begun, { type: 'hand-over', to: 'x'.repeat(81) }],
  ],
  'witness-needed': [
    [given(benchSheet, ...toWitness), net(at.oil, '20.1')],
    [given(benchSheet, ...toWitness), tick(at.oil)],
  ],
  'not-yet': [
    [begun, { type: 'set-aside', typed: '12 g', name: 'crumbs' }],
    [begun, { type: 'add-outside', material: 'salt', typed: '5 g', reason }],
    [begun, { type: 'next-portion', step: at.salt }],
  ],
};

const all = refusalCodes.flatMap(code =>
  examples[code].map(([story, intent], index) => ({ code, number: index + 1, story, intent })),
);

test.each(all)('$code is the answer, example $number', ({ code, story, intent }) => {
  const { run, now } = story;
  const decision = decide(run, intent, { at: now, by: 'Ana' });
  expect(decision).toMatchObject({ ok: false, refusal: { code } });
  if (decision.ok) return;
  // Sentences for people: whole, and without the names that the code gives to things.
  for (const text of [decision.refusal.message, decision.refusal.instead]) {
    expect(text).toMatch(/^\S[^\n]*\.$/);
    expect(text).not.toMatch(/undefined|\[object|\b[a-z]+[A-Z][a-z]+\b/);
  }
});

test('every code has an example', () => {
  expect(refusalCodes.filter(code => examples[code].length === 0)).toEqual([]);
});
