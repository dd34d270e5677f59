import { describe, expect, test } from 'vitest';
import type { SizeWish } from '../../../src/core/plan/plan.ts';
import { grams, ratio } from '../../../src/core/quantity/quantity.ts';
import type { ScaleCheck, Sheet } from '../../../src/core/sheet/sheet.ts';
import { sheetPages } from '../../../src/workshop/export/sheet-page.ts';
import { asWritten, big, plan } from '../../helpers/plan.ts';
import { cedarDomes } from '../../helpers/sheet.ts';
import { sheetOfText, sheetText } from '../../helpers/sheet-text.ts';

interface Wishes {
  readonly wish?: SizeWish;
  readonly path?: string;
  readonly scaleCheck?: ScaleCheck;
}

const printed = (
  sheet: Sheet,
  { wish = asWritten, path = 'cedar.yaml', scaleCheck }: Wishes = {},
) => ({
  path,
  sheet,
  plan: plan(sheet, wish).plan,
  scaleCheck,
});

const pageOf = (sheet: Sheet, wishes?: Wishes): string =>
  sheetPages([printed(sheet, wishes)], 'tarebook 0');

const atSize = (wishes: Wishes): string => textOf(pageOf(cedarDomes(), wishes));

const textOf = (page: string): string =>
  page
    .replace(/<style>.*<\/style>/s, '')
    .replace(/<[^>]*>/g, ' ')
    .replace(/\s+/g, ' ')
    .replaceAll(' .', '.')
    .trim();

describe('a sheet on paper', () => {
  // Targets and windows are those worked out by hand in plan-batch.test.ts.
  const page = pageOf(cedarDomes());
  const text = textOf(page);

  test('has each target with its window, scale and way', () => {
    const wanted = [
      'Line 1: Sodium bicarbonate',
      '1 839.1 g accepted 1 820.8 g to 1 857.5 g big in the steel bowl: tare, then pour',
      'Line 3: Cedarwood blend',
      '71.19 g accepted 69.77 g to 71.90 g fine in a cup, then tip into the steel bowl',
    ];
    expect(wanted.filter(each => !text.includes(each))).toEqual([]);
    expect(page.match(/class="weigh"/g)).toHaveLength(6);
  });

  test('has room for what was done at every step', () => {
    const wanted = [
      'Batch number',
      'dust mask goggles',
      'bowl and sieve clean last batch cleared away',
      'Measure humidity: at most 50 %. Read % Measured again %',
      'Add Water little by little, about 1 mL at a time, until a squeezed handful holds together. At most 12 mL, 11.97 g.',
      'At the latest 15 min after step 9 (wetting) was done. That is at',
      'This empties the steel bowl',
      'Rest, covered. Wait at least 10 min, at most 30 min. Start, date and time End, date and time',
      'Good pieces Samples kept Rejected because',
      '1 g 2 g 3 g 4 g 5 g',
      'Weighed empty g',
      'Best before, 9 months after the last addition',
      'Made by Witnessed by Reviewed by Released by',
    ];
    expect(wanted.filter(each => !text.includes(each))).toEqual([]);
    expect(page.match(/class="box"/g)).toHaveLength(4 + 2 + 2 + 2);
  });

  test('begins with cautions and hazards, and says the limits with what they come to', () => {
    expect(text.indexOf('Not food.')).toBeLessThan(text.indexOf('Batch number'));
    expect(text).toContain('Citric acid, anhydrous, fine: eye irritant');
    // 71.19 / 3489.79… = 2.04 %; 1839.1 / 919.6 = 1.9999.
    expect(text).toContain('Cedarwood blend in the batch, at most 3.00 %; it comes to 2.04 %');
    expect(text).toContain('at least 1.800, at most 2.200; it comes to 2.000 at the targets');
  });

  test('sends an over-pour to the command that knows the ways out, at the same size', () => {
    expect(text).toContain('tarebook remedy cedar.yaml --poured 2=312.0');
    expect(atSize({ wish: { by: 'pieces', pieces: 48 } })).toContain(
      'remedy cedar.yaml --pieces 48 --poured',
    );
    expect(
      atSize({ wish: { by: 'factor', factor: ratio(5n, 7n) }, path: 'my sheet.yaml' }),
    ).toContain('remedy &quot;my sheet.yaml&quot; --factor 5/7 --poured');
  });

  test('runs nothing, fetches nothing and has no colour', () => {
    expect(page).not.toMatch(
      /<script|<img|<link|javascript:|\son\w+=|https?:|url\(|@import|style="/i,
    );
    const colours = [...page.matchAll(/#([0-9a-f]{3,6})\b/gi)].map(([, digits = '']) => digits);
    expect(colours.filter(digits => new Set(digits).size > 1)).toEqual([]);
  });
});

test('the most of an adjust step follows the size, cut and never rounded up', () => {
  // 12 mL · 5/7 = 8.571 42… mL; · 0.998 g/mL = 8.554 28… g.
  const text = textOf(pageOf(cedarDomes(), { wish: { by: 'factor', factor: ratio(5n, 7n) } }));
  expect(text).toContain('At most 8.57 mL, 8.55 g.');
});

test('several sheets begin on paper of their own, each with its own head', () => {
  const other = sheetOfText(sheetText());
  const page = sheetPages([printed(cedarDomes()), printed(other)], 'tarebook 0');
  expect(page.match(/<table class="whole">/g)).toHaveLength(2);
  expect(page).toContain('.whole+.whole{break-before:page}');
  expect(page).toContain('Plain powder, sheet PLN revision 1');
});

test('several weighings have a row each, with a part of the target', () => {
  // 600 g on a scale of 250 g: three times 200.0 g; 400 g: twice 200.0 g.
  const sheet = sheetOfText(sheetText());
  const small = { ...big, name: 'small', capacity: grams(ratio(250n)) };
  const { plan: today } = plan(sheet, asWritten, [small]);
  const page = sheetPages([{ path: 'a.yaml', sheet, plan: today, scaleCheck: undefined }], 'x');
  expect(page.match(/class="weigh"/g)).toHaveLength(5);
  expect(textOf(page)).toContain(
    'Line 1: Soda Weighing 3 of 3 200.0 g accepted 198.0 g to 202.0 g',
  );
});

test('a check of the scales is asked for where the sheet or the workshop asks for one', () => {
  const sheet = sheetOfText(sheetText());
  const usual: ScaleCheck = { within: 86_400n, otherwise: 'refuse' };
  expect(textOf(pageOf(sheet))).toContain('No check is asked for');
  expect(textOf(pageOf(sheet, { scaleCheck: usual }))).toContain(
    'at the latest 24 h before the batch, else no batch is begun.',
  );
});

test('a vessel is weighed once, a material without lots asks for none, a phase waits for another', () => {
  const sheet = cedarDomes();
  const [base, topping] = sheet.phases;
  if (base === undefined || topping === undefined) throw new Error('two phases');
  const water = sheet.materials.get('water');
  if (water === undefined) throw new Error('water');
  const changed: Sheet = {
    ...sheet,
    phases: [base, { ...topping, vessel: base.vessel, after: ['Base'] }],
    materials: new Map([...sheet.materials, ['cocoa butter', { ...water, name: 'Cocoa butter' }]]),
  };
  const text = textOf(pageOf(changed));
  expect(text).toContain('Not before Base is done. Goes on in the steel bowl.');
  expect(text.match(/Weighed empty/g)).toHaveLength(1);
  expect(text).toContain('no lot asked for');
});

test('whatever a sheet says is escaped', () => {
  const sheet = sheetOfText(
    sheetText(
      ['soda: {name: Soda}', "soda: {name: '<script>alert(1)</script>', hazard: 'a & b'}"],
      ['for: Rest.', 'for: "</td><b>"'],
    ),
  );
  const page = pageOf(sheet, { path: '<i>.yaml' });
  expect(page).not.toMatch(/<script|<i>/);
  expect(page).toContain('&lt;script&gt;alert(1)&lt;/script&gt;');
  expect(page).toContain('&lt;/td&gt;&lt;b&gt;');
});
