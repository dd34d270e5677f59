import { describe, expect, test } from 'vitest';
import { readNumber } from '../../../src/core/quantity/decimal.ts';
import { grams, type Mass, ratio, zero } from '../../../src/core/quantity/quantity.ts';
import { readSheet } from '../../../src/core/sheet/read-sheet.ts';
import type { Allowance } from '../../../src/core/sheet/sheet.ts';
import {
  firstAddition,
  firstAdjust,
  firstHold,
  sheetOfText,
  sheetText,
} from '../../helpers/sheet-text.ts';

const exactly = (text: string): Mass => {
  const value = readNumber(text);
  if (value === undefined) throw new Error(text);
  return grams(value);
};

const share = (num: bigint, den = 100n): Allowance => ({ kind: 'share', share: ratio(num, den) });
const mass = (text: string): Allowance => ({ kind: 'mass', mass: exactly(text) });

const weighed = (amount: string, material = '{name: Soda, density: 1 g/mL}', more = ''): Mass => {
  const text = sheetText(
    ['amount: 600 g', `amount: ${amount}`],
    ['{name: Soda}', material],
    ['materials:', `${more}materials:`],
  );
  const read = firstAddition(sheetOfText(text)).amount;
  if (read.kind !== 'mass') throw new Error(read.kind);
  return read.mass;
};

const mendOf = (...change: readonly [string, string]): readonly string[] =>
  readSheet(sheetText(change)).problems.map(each => `${each.code}: ${each.mend}`);

const readTolerance = (text: string) =>
  sheetOfText(sheetText(['tolerance: 1 %', `tolerance: ${text}`])).tolerance;

describe('a tolerance', () => {
  test.each([
    ['1 %', { under: share(1n), over: share(1n) }],
    ['0.5 g', { under: mass('1/2'), over: mass('1/2') }],
    ['-2 % +1 %', { under: share(2n), over: share(1n) }],
    ['−2% +1%', { under: share(2n), over: share(1n) }],
    ['-0 g +2 g', { under: mass('0'), over: mass('2') }],
    ['-1 % +2 g', { under: share(1n), over: mass('2') }],
    ['+3 %', { under: { kind: 'share', share: zero }, over: share(3n) }],
    ['-1/2 %', { under: share(1n, 200n), over: { kind: 'share', share: zero } }],
    ['1 %, at least 0.05 g', { under: share(1n), over: share(1n), floor: exactly('1/20') }],
    ['-0 % +2 %, at least 1 g', { under: share(0n), over: share(2n), floor: exactly('1') }],
  ])('reads %s', (text, expected) => {
    expect(readTolerance(text)).toEqual(expected);
  });

  test.each([
    '0 %',
    '+1 % -1 %',
    '±1 %',
    '1 % 2 %',
    '-1',
    'a little',
    '1 %, at least',
    '-1 % -1 %',
  ])('refuses %s', text => {
    const { problems } = readSheet(sheetText(['tolerance: 1 %', `tolerance: ${text}`]));
    expect(problems.map(each => each.code)).toEqual(['bad-tolerance']);
  });
});

describe('a comma in a tolerance', () => {
  test('becomes a point in each of its numbers', () => {
    const change = ['tolerance: 1 %', 'tolerance: 1,5 %, at least 0,05 g'] as const;
    expect(mendOf(...change)).toEqual(['decimal-comma: Write 1.5 %, at least 0.05 g']);
  });
});

describe('an absolute amount', () => {
  // NIST Handbook 44, Appendix C: all exact.
  test.each([
    ['1 cup', '236.5882365'],
    ['1 fl oz', '29.5735295625'],
    ['1 tbsp', '14.78676478125'],
    ['1 tsp', '4.92892159375'],
    ['1 lb', '453.59237'],
    ['1 oz', '28.349523125'],
    ['16 tbsp', '236.5882365'],
    ['48 tsp', '236.5882365'],
    ['128 fl oz', '3785.411784'],
    ['1 lb 12 oz', '793.78664750'],
    ['1 1/2 cups', '354.88235475'],
    ['1 cup 2 tbsp', '266.1617660625'],
    ['1/2 kg', '500'],
    ['5g', '5'],
    ['250 mg', '1/4'],
    ['0.75 L', '750'],
  ])('of density 1, %s, weighs %s g', (amount, expected) => {
    expect(weighed(amount)).toEqual(exactly(expected));
  });

  // USDA National Nutrient Database SR26, WEIGHT: portion and its grams.
  test.each([
    ['table salt (02047)', '292 g/cup', '1/2 cup', '146'],
    ['olive oil (04053)', '216 g/cup', '3 tbsp', '40.5'],
    ['cornstarch (20027)', '128 g/cup', '2 cups', '256'],
    ['baking soda (18372)', '4.6 g/tsp', '1 tbsp', '13.8'],
    ['cream of tartar (18373)', '3 g/tsp', '1/2 tsp', '1.5'],
    ['honey (19296)', '339 g/cup', '1 cup', '339'],
  ])('of %s, whose density is %s, weighs exactly: %s', (_, density, amount, expected) => {
    expect(weighed(amount, `{name: Soda, density: ${density}}`)).toEqual(exactly(expected));
  });

  test('of drops, of counted things and of own measures weighs through what the sheet says', () => {
    const oil = '{name: Soda, density: 0.9 g/mL, drop: 0.05 mL, each: 7 g}';
    expect(weighed('40 drops', oil)).toEqual(exactly('1.8'));
    expect(weighed('3 each', oil)).toEqual(exactly('21'));
    expect(weighed('2 scoops', oil, 'measures: {scoop: 15 mL}\n')).toEqual(exactly('27'));
  });

  test.each([
    ['5 ml', 'unknown-unit: Write 5 mL'],
    ['5 grams', 'unknown-unit: Write 5 g'],
    ['2 tablespoons', 'unknown-unit: Write 2 tbsp'],
    ['1.234,5 g', 'decimal-comma: Write 1234.5 g'],
    ['1,5 g', 'decimal-comma: Write 1.5 g'],
    ['1,234 g', 'decimal-comma: Write 1.234 g, or without the comma if it parts thousands'],
    ['1,234.5 g', 'decimal-comma: Write 1234.5 g'],
    ['600', 'bad-amount: Add the unit, such as 600 % or 600 g'],
    ['0 g', 'out-of-range: Write for example 12 %'],
    ['62 percent', 'unknown-unit: Write 62 %'],
  ])('%s is answered with a mend', (amount, expected) => {
    expect(mendOf('amount: 600 g', `amount: ${amount}`)).toEqual([expected]);
  });

  test.each([
    ['density', '1 cup', '{name: Soda}'],
    ['density', '3 drops', '{name: Soda, drop: 0.05 mL}'],
    ['drop', '3 drops', '{name: Soda, density: 1 g/mL}'],
    ['each', '3 each', '{name: Soda, density: 1 g/mL}'],
  ])('that lacks its %s is told so: %s', (property, amount, material) => {
    const { problems } = readSheet(
      sheetText(['amount: 600 g', `amount: ${amount}`], ['{name: Soda}', material]),
    );
    expect(problems).toMatchObject([
      { code: 'no-density', message: expect.stringContaining(`“soda” has no ${property}`) },
    ]);
  });
});

const adjusting = (most: string): readonly [string, string] => [
  '      - hold',
  `      - adjust: soda\n        most: ${most}\n        until: it flows\n      - hold`,
];

describe('an adjust step', () => {
  test('keeps what was typed beside what it weighs', () => {
    const text = sheetText(adjusting('2 tsp'), ['{name: Soda}', '{name: Soda, density: 1 g/mL}']);
    expect(firstAdjust(sheetOfText(text)).most).toEqual({
      typed: '2 tsp',
      mass: exactly('9.8578431875'),
    });
  });

  test('takes no percentage', () => {
    const { problems } = readSheet(sheetText(adjusting('2 %')));
    expect(problems.map(each => each.code)).toEqual(['unknown-unit']);
  });
});

describe('a hold', () => {
  test.each([
    ['10 min', { least: 600n }],
    ['10 min to 30 min', { least: 600n, most: 1800n }],
    ['1 h 30 min to 2 days', { least: 5400n, most: 172_800n }],
    ['0.5 h', { least: 1800n }],
    ['1/2 week', { least: 302_400n }],
  ])('reads %s', (text, expected) => {
    const hold = firstHold(sheetOfText(sheetText(['hold: 10 min', `hold: ${text}`])));
    expect(hold).toMatchObject(expected);
    expect('most' in hold).toBe('most' in expected);
  });

  test.each([
    ['10', 'bad-amount'],
    ['10 months', 'unknown-unit'],
    ['0.5 s', 'out-of-range'],
    ['30 min to 10 min', 'hold-backwards'],
    ['1 s to 2 s to 3 s', 'bad-amount'],
    ['99999 weeks', 'out-of-range'],
  ])('refuses %s', (text, code) => {
    const { problems } = readSheet(sheetText(['hold: 10 min', `hold: ${text}`]));
    expect(problems.map(each => each.code)).toEqual([code]);
  });
});

const readPeriod = (text: string) =>
  readSheet(sheetText(['tolerance: 1 %', `tolerance: 1 %\nuse within: ${text}`]));

describe('use within', () => {
  test('reads whole days, weeks and months', () => {
    expect(readPeriod('9 months')).toMatchObject({
      sheet: { useWithin: { count: 9, unit: 'month' } },
    });
    expect(readPeriod('1 week')).toMatchObject({
      sheet: { useWithin: { count: 1, unit: 'week' } },
    });
    expect(readPeriod('30days')).toMatchObject({
      sheet: { useWithin: { count: 30, unit: 'day' } },
    });
  });

  test.each([
    ['2 h', 'unknown-unit'],
    ['1.5 months', 'out-of-range'],
    ['0 days', 'out-of-range'],
  ])('refuses %s', (text, code) => {
    expect(readPeriod(text).problems.map(each => each.code)).toEqual([code]);
  });
});
