import { describe, expect, test } from 'vitest';
import { buildResult } from '../../../src/core/result/build-result.ts';
import type { Result } from '../../../src/core/result/record.ts';
import type { Intent } from '../../../src/core/run/intent.ts';
import {
  at,
  benchSheet,
  lot,
  net,
  tick,
  toClay,
  toClose,
  toSalt,
  toTally,
  toWetting,
  vessel,
} from '../../helpers/bench-sheet.ts';
import { closedRun, given, type Story } from '../../helpers/given.ts';

const close: Intent = { type: 'close' };
const scrap: Intent = { type: 'scrap', reason: 'bowl fell' };
const resultOf = (story: Story): Result => buildResult(closedRun(story));
const made = resultOf(given(benchSheet, ...toClose, close));

describe('a batch made as its sheet says', () => {
  test('has all masses, shares and limits', () => {
    // 600 + 300 + 20 + 2 + 80 g = 1002 g; the shares by hand.
    expect(made.massIn).toBe('1002');
    expect(made.materials.map(each => [each.material, each.mass, each.share])).toEqual([
      ['salt', '600', '59.8802'],
      ['clay', '300', '29.9401'],
      ['oil', '20', '1.9960'],
      ['water', '2', '0.1996'],
      ['wax', '80', '7.9840'],
    ]);
    expect(made.limits).toEqual([{ n: 1, actual: '1.9960', holds: true }]);
    expect(made.additions.map(each => each.verdict)).toEqual(['in', 'in', 'in', 'in']);
    expect(made.adjustments).toEqual([
      { step: at.wetting, material: 'water', mass: '2', lots: [{ mass: '2', waste: '0' }] },
    ]);
  });

  test('has its vessels as they were left', () => {
    expect(made.vessels).toEqual([
      { vessel: 'bowl', tare: '300', contents: '0' },
      { vessel: 'jug', tare: '200', contents: '80' },
    ]);
  });

  test('has its yield of the theoretical one', () => {
    // 1002 g / 100 g = 10.02 pieces; 8 good and 1 sample: 9 / 10.02 = 89.82 %.
    expect(made.yield).toEqual({
      theoretical: '10.02',
      expected: '10.02',
      actual: 9,
      percent: '89.82',
      rejected: [{ count: 1, reason: 'cracked' }],
      samples: 1,
      leftOver: '0',
      crumbs: '4.1',
      weights: ['99.5', '100.5'],
      mean: '100.0000',
      // √(0.5² + 0.5²) = 0.70711
      spread: '0.7071',
    });
  });

  test('expects what the loss leaves of the theoretical yield', () => {
    const losing = benchSheet.replace('fill: 100 g', 'fill: 100 g, loss: 2 %');
    // 10.02 · 0.98 = 9.8196
    expect(resultOf(given(losing, ...toClose, close)).yield).toMatchObject({
      theoretical: '10.02',
      expected: '9.82',
      percent: '89.82',
    });
  });

  test('names its people in the order in which they came', () => {
    const handed = given(
      benchSheet,
      { type: 'hand-over', to: 'Bea' },
      tick(at.wear),
      { type: 'hand-over', to: 'Ana' },
      { ...scrap },
    );
    expect(resultOf(handed).people).toEqual(['Ana', 'Bea']);
  });
});

describe('lots', () => {
  test('each have their part of the mass; what was lifted out is waste', () => {
    const story = given(
      benchSheet,
      ...toSalt,
      net(at.salt, '250'),
      lot(at.salt, 'S-2'),
      net(at.salt, '200'),
      lot(at.salt, 'S-1'),
      net(at.salt, '180.5'),
      { type: 'take-back', step: at.salt, way: 'net', part: 'display', typed: '150.5' },
      scrap,
    );
    const lots = [
      { lot: 'S-1', mass: '400.5', waste: '30' },
      { lot: 'S-2', mass: '200', waste: '0' },
    ];
    const result = resultOf(story);
    expect(result.additions[0]).toEqual({ n: 1, step: at.salt, net: '600.5', verdict: 'in', lots });
    expect(result.materials[0]).toMatchObject({ mass: '600.5', share: '100.0000', lots });
    expect(result.massIn).toBe('600.5');
  });

  test('that gave nothing are not named', () => {
    const story = given(benchSheet, ...toSalt, lot(at.salt, 'S-2'), scrap);
    expect(resultOf(story).additions[0]?.lots).toEqual([]);
  });
});

describe('a scrapped batch', () => {
  const result = resultOf(given(benchSheet, ...toClay, net(at.clay, '250'), scrap));

  test('keeps what is in, judged as far as it went', () => {
    expect(result).toMatchObject({ outcome: 'rejected', reason: 'bowl fell', massIn: '850' });
    expect(result.additions.map(each => each.verdict)).toEqual([
      'in',
      'under',
      undefined,
      undefined,
    ]);
  });

  test('has no yield before anything was counted', () => {
    expect(result).not.toHaveProperty('yield');
  });

  test('without any addition has no best before and all shares at nothing', () => {
    const empty = resultOf(given(benchSheet, scrap));
    expect(empty).not.toHaveProperty('bestBefore');
    expect(empty.materials.map(each => each.share)).toEqual(Array(5).fill('0.0000'));
    expect(empty.limits).toEqual([{ n: 1, holds: true }]);
  });
});

describe('deviations', () => {
  test('stand in the record in the order in which they were decided', () => {
    expect(made.deviations.map(each => each.what)).toEqual(['unwitnessed', 'hold-early']);
  });

  test('of an adjust step count from the most that the sheet allows', () => {
    const result = resultOf(
      given(
        benchSheet,
        ...toWetting,
        { type: 'adjust', step: at.wetting, typed: '10.5 mL', confirmed: true },
        { type: 'finish-adjust', step: at.wetting, reason: 'dry day' },
        scrap,
      ),
    );
    expect(result.deviations.at(-1)).toMatchObject({
      what: 'adjust-over',
      found: '10.5',
      most: '10',
    });
  });
});

describe('best before', () => {
  // The last addition of the sheet is the wax.
  const beforeWax = given(benchSheet, ...toTally.slice(0, -1));
  const bestBefore = (instant: string): string | undefined => {
    const { run } = beforeWax;
    if (run.phase !== 'open') throw new Error('not open');
    const story = beforeWax.when(net(at.wax, '80'), { at: instant }).gives({
      type: 'reading-taken',
      step: at.wax,
      way: 'net',
      part: 'display',
      reading: { typed: '80', unit: 'g', mass: '80', scale: 'fine' },
      vessel: 'jug',
      lot: 'W-1',
      judged: { net: '80', total: '80', verdict: 'in' },
    });
    return resultOf(story.after(scrap)).bestBefore;
  };

  test.each([
    ['2027-01-31T12:00:00.000+01:00', '2027-02-28'],
    ['2028-01-31T12:00:00.000+01:00', '2028-02-29'],
    ['2027-03-31T12:00:00.000+01:00', '2027-04-30'],
    ['2027-12-31T12:00:00.000+01:00', '2028-01-31'],
    // The date is the local one: in UTC it is still 31 January.
    ['2027-02-01T00:30:00.000+01:00', '2027-03-01'],
  ])('of %s and one month is %s', (instant, date) => {
    expect(bestBefore(instant)).toBe(date);
  });

  test('does not move with what is no addition', () => {
    expect(made.bestBefore).toBe('2027-04-04');
    const later = given(benchSheet, ...toTally)
      .wait(40 * 86_400)
      .after(scrap);
    expect(resultOf(later).bestBefore).toBe('2027-04-04');
  });

  test('is not stated without “use within”', () => {
    const sheet = benchSheet.replace('use within: 1 month\n', '');
    expect(resultOf(given(sheet, ...toClose, close))).not.toHaveProperty('bestBefore');
  });
});

test('a batch on the sheet’s own tares needs no vessel on a scale', () => {
  expect(resultOf(given(benchSheet, vessel('jug'), scrap)).vessels).toEqual([
    { vessel: 'jug', tare: '200', contents: '0' },
  ]);
});
