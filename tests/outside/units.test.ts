/** Unit factors against published values and against two programs that others wrote. */
import { execFileSync } from 'node:child_process';
import { convert } from 'convert';
import { describe, expect, it } from 'vitest';
import { toDecimal, toExact } from '../../src/core/quantity/decimal.ts';
import { type Quantity, ratio, times } from '../../src/core/quantity/quantity.ts';
import { massIn, massUnits, volumeUnits } from '../../src/core/quantity/unit.ts';
import { number } from '../helpers/sheet.ts';

const factor = (unit: string): Quantity<string> => {
  const found = massUnits.get(unit) ?? volumeUnits.get(unit);
  if (found === undefined) throw new Error(`no unit ${unit}`);
  return found;
};

describe('published unit factors', () => {
  // NIST Handbook 44 Appendix C and SP 811 Appendix B.8: gallon of 231 cubic inches, inch of 2.54 cm,
  // pound of 453.592 37 g, each marked exact; the others divide them. In mL and g.
  it.each([
    ['cup', '236.5882365'],
    ['fl oz', '29.5735295625'],
    ['tbsp', '14.78676478125'],
    ['tsp', '4.92892159375'],
    ['L', '1000'],
    ['lb', '453.59237'],
    ['oz', '28.349523125'],
    ['kg', '1000'],
    ['mg', '0.001'],
  ])('one %s is exactly %s', (unit, value) => {
    expect(toExact(factor(unit))).toBe(value);
  });

  // SP 811 B.8 prints seven digits.
  it.each([
    ['cup', 4, '236.5882'],
    ['fl oz', 5, '29.57353'],
    ['tbsp', 5, '14.78676'],
    ['tsp', 6, '4.928922'],
    ['oz', 5, '28.34952'],
    ['lb', 4, '453.5924'],
  ])('one %s in seven digits is as printed', (unit, places, printed) => {
    expect(toDecimal(factor(unit), places, 'half-even')).toBe(printed);
  });

  // NIST Handbook 44 Appendix C: 1 cup = 8 fl oz, 1 fl oz = 2 tbsp, 1 tbsp = 3 tsp, 1 lb = 16 oz, exactly.
  it.each([
    ['cup', 8n, 'fl oz'],
    ['cup', 16n, 'tbsp'],
    ['cup', 48n, 'tsp'],
    ['fl oz', 2n, 'tbsp'],
    ['tbsp', 3n, 'tsp'],
    ['lb', 16n, 'oz'],
  ])('one %s is %i %s', (large, count, small) => {
    expect(factor(large)).toEqual(times(factor(small), ratio(count)));
  });

  // NIST Handbook 44 Appendix C: 1 lb = 7000 grains, 1 grain = 64.798 91 mg.
  it('a pound is seven thousand grains', () => {
    expect(massIn(number('1'), 'lb')).toEqual(
      times(massIn(number('64.79891'), 'mg'), ratio(7000n)),
    );
  });
});

describe('the npm package convert', () => {
  // It reckons in binary floats, so the last of about sixteen digits may differ.
  it.each([
    ['cup', 'cup', 'mL'],
    ['tbsp', 'tablespoon', 'mL'],
    ['tsp', 'teaspoon', 'mL'],
    ['fl oz', 'fl oz', 'mL'],
    ['L', 'L', 'mL'],
    ['lb', 'lb', 'g'],
    ['oz', 'oz', 'g'],
    ['kg', 'kg', 'g'],
    ['mg', 'mg', 'g'],
  ] as const)('agrees on the %s to fourteen digits', (ours, theirs, to) => {
    const value = theirs === 'lb' || to === 'g' ? massByConvert(theirs) : volumeByConvert(theirs);
    const exact = Number(toDecimal(factor(ours), 20, 'half-even'));
    expect(Math.abs(value / exact - 1)).toBeLessThan(1e-14);
  });
});

const massByConvert = (unit: string): number => convert(1, unit as 'oz').to('g');
const volumeByConvert = (unit: string): number => convert(1, unit as 'cup').to('mL');

const gnuUnits = (from: string, to: string): string | undefined => {
  try {
    return execFileSync('units', ['--terse', '--output-format', '%.15g', from, to], {
      encoding: 'utf8',
    }).trim();
  } catch {
    return undefined;
  }
};

const isInstalled = gnuUnits('1 m', 'cm') === '100';

describe('GNU units', () => {
  it.skipIf(!isInstalled).each([
    ['cup', 'uscup', 'mL'],
    ['tbsp', 'ustablespoon', 'mL'],
    ['tsp', 'usteaspoon', 'mL'],
    ['fl oz', 'usfluidounce', 'mL'],
    ['L', 'liter', 'mL'],
    ['lb', 'lb', 'g'],
    ['oz', 'oz', 'g'],
    ['kg', 'kg', 'g'],
    ['mg', 'mg', 'g'],
  ])(
    'agrees on the %s in fifteen digits (skipped where it is not installed)',
    (ours, theirs, to) => {
      expect(gnuUnits(`1 ${theirs}`, to)).toBe(toExact(factor(ours)));
    },
  );
});
