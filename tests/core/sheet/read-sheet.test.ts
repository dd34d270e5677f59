import { readFileSync } from 'node:fs';
import { describe, expect, test } from 'vitest';
import {
  grams,
  gramsPerMillilitre,
  millilitres,
  ratio,
} from '../../../src/core/quantity/quantity.ts';
import { readSheet } from '../../../src/core/sheet/read-sheet.ts';
import { sheetOfText, sheetText, told } from '../../helpers/sheet-text.ts';

const example = readFileSync(
  new URL('../../fixtures/sheets/cedar-domes.yaml', import.meta.url),
  'utf8',
);

const share = (num: bigint, den: bigint) => ({ kind: 'share', share: ratio(num, den) });

describe('the example of the sheet’s own description', () => {
  const sheet = sheetOfText(example);
  const [base, topping] = sheet.phases;

  test('reads without a problem', () => {
    expect(readSheet(example)).toMatchObject({ ok: true, problems: [] });
  });

  test('says what it is and what it makes', () => {
    expect(sheet).toMatchObject({
      name: 'Cedar bath domes with whipped topping',
      code: 'CDR',
      revision: 4,
      makes: { piece: 'dome', count: 36, fill: grams(ratio(95n)), loss: ratio(1n, 50n) },
      useWithin: { count: 9, unit: 'month' },
      contact: 'rinse-off',
      basis: 'percentages',
    });
    expect(sheet.cautions).toEqual([
      'Not food. Pieces look like something to eat; label them so and keep them from children.',
    ]);
    expect(sheet.measures).toEqual(
      new Map([
        ['pump', millilitres(ratio(2n))],
        ['scoop', millilitres(ratio(15n))],
      ]),
    );
  });

  test('gives its materials exactly', () => {
    expect(sheet.materials.size).toBe(7);
    expect(sheet.materials.get('cedar blend')).toMatchObject({
      name: 'Cedarwood blend',
      inci: 'Parfum',
      density: gramsPerMillilitre(ratio(93n, 100n)),
      drop: millilitres(ratio(3n, 100n)),
      allergens: new Map([
        ['Limonene', ratio(3n, 25n)],
        ['Linalool', ratio(1n, 25n)],
      ]),
      hasLots: true,
    });
    expect(sheet.materials.get('citric acid')).toMatchObject({
      name: 'Citric acid, anhydrous, fine',
      hazard: 'eye irritant',
      place: { line: 14, column: 3 },
    });
    expect(sheet.materials.get('water')?.hasLots).toBe(false);
  });

  test('bounds a share of the batch and a ratio', () => {
    expect(sheet.limits).toMatchObject([
      { kind: 'share', material: 'cedar blend', most: ratio(3n, 100n) },
      {
        kind: 'ratio',
        material: 'bicarbonate',
        to: 'citric acid',
        least: ratio(9n, 5n),
        most: ratio(11n, 5n),
      },
    ]);
    expect(sheet.limits[0]).not.toHaveProperty('phase');
  });

  test('gives its phases with their vessels', () => {
    expect(sheet.phases).toMatchObject([
      {
        name: 'Base',
        share: ratio(17n, 20n),
        vessel: { name: 'steel bowl', tare: grams(ratio(812n)), holds: grams(ratio(6000n)) },
        after: [],
        portions: 1,
      },
      { name: 'Topping', share: ratio(3n, 20n), vessel: { name: 'jug' } },
    ]);
    expect(topping?.steps).toMatchObject([
      { kind: 'add', material: 'cocoa butter', amount: { kind: 'share', share: ratio(7n, 10n) } },
      { kind: 'add', material: 'stearic acid', amount: { kind: 'share', share: ratio(3n, 10n) } },
    ]);
  });

  test('gives its steps in order', () => {
    expect(base?.steps).toMatchObject([
      { kind: 'wear', items: ['dust mask', 'goggles'] },
      { kind: 'ready', items: ['bowl and sieve clean', 'last batch cleared away'] },
      { kind: 'add', material: 'bicarbonate', amount: share(31n, 50n), witness: false },
      { kind: 'add', material: 'citric acid', amount: share(31n, 100n) },
      {
        kind: 'add',
        material: 'cedar blend',
        amount: share(3n, 125n),
        tolerance: { under: share(1n, 50n), over: share(1n, 100n) },
        witness: true,
      },
      { kind: 'add', material: 'cornflour', amount: { kind: 'rest' } },
      { kind: 'do', text: 'Rub through a 1 mm sieve until no lump is left.' },
      { kind: 'measure', what: 'humidity', unit: '%', most: ratio(50n) },
      {
        kind: 'adjust',
        material: 'water',
        name: 'wetting',
        // 1 mL and 12 mL of 0.998 g/mL.
        by: { typed: '1 mL', mass: grams(ratio(499n, 500n)) },
        most: { typed: '12 mL', mass: grams(ratio(1497n, 125n)) },
        until: 'a squeezed handful holds together',
      },
      { kind: 'do', within: { seconds: 900n, of: 'wetting' }, empties: 'steel bowl' },
      { kind: 'hold', least: 600n, most: 1800n, why: 'Rest, covered.' },
    ]);
    expect(sheet.finish).toMatchObject([
      { kind: 'hold', least: 64_800n, most: 129_600n, why: 'Dry on racks.' },
      { kind: 'tally', weigh: 5 },
    ]);
  });
});

describe('a sheet with many faults', () => {
  test('is told all of them at once, in the order of the file', () => {
    const { problems } = readSheet(
      sheetText(
        ['code: PLN', 'code: pln'],
        ['fill: 100 g', 'fill: 100'],
        ['tolerance: 1 %', 'tolerance: 1,5 %'],
        ['soda: {name: Soda}', 'soda: {nmae: Soda}'],
        ['add: acid', 'add: acids'],
        ['amount: 400 g', 'amount: 400 grammes'],
        ['hold: 10 min', 'hold: 10 min to 5 min'],
      ),
    );
    expect(told(problems)).toEqual([
      'bad-code 2:7',
      'bad-amount 4:38',
      'decimal-comma 5:12',
      'unknown-key 7:10',
      'undeclared-material 15:14',
      'hold-backwards 17:15',
    ]);
  });

  test('is told once of a tolerance that cannot be read, and not that it is missing', () => {
    const { problems } = readSheet(sheetText(['tolerance: 1 %', 'tolerance: one per cent']));
    expect(told(problems)).toEqual(['bad-tolerance 5:12']);
  });

  test('is not told that percentages fail to add up while one cannot be read', () => {
    const { problems } = readSheet(
      sheetText(['amount: 600 g', 'amount: 60 %'], ['amount: 400 g', 'amount: 40 percent']),
    );
    expect(told(problems)).toEqual(['unknown-unit 16:17']);
  });
});
