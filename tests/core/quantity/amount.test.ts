import { describe, expect, it } from 'vitest';
import { readMass, readTerms } from '../../../src/core/quantity/amount.ts';
import { toExact } from '../../../src/core/quantity/decimal.ts';

const terms = (text: string) =>
  readTerms(text)
    ?.map(({ amount, unit }) => `${toExact(amount)} ${unit}`)
    .join(' + ');

const massText = (text: string) => {
  const value = readMass(text);
  return value === undefined ? undefined : toExact(value);
};

describe('readTerms', () => {
  it.each([
    ['62%', '62 %'],
    ['62 %', '62 %'],
    ['1 lb 12 oz', '1 lb + 12 oz'],
    ['1lb12oz', '1 lb + 12 oz'],
    ['1 1/2 cups', '1.5 cups'],
    ['1/3 cup', '1/3 cup'],
    ['2 fl  oz', '2 fl oz'],
    ['  5 g ', '5 g'],
    ['1 h 20 min', '1 h + 20 min'],
    ['3 heaped scoops', '3 heaped scoops'],
    ['20 °C', '20 °C'],
  ])('splits %j into %s', (text, expected) => {
    expect(terms(text)).toBe(expected);
  });

  it.each([
    '',
    '5',
    'g',
    '1,5 g',
    '-5 g',
    '1/0 g',
    '1.5/2 g',
    '5 g 3',
    '5. g',
    '.5 g',
    '5 g, 3 oz',
    '1e3 g2',
    'rest',
    `${'1'.repeat(99)} g`,
  ])('refuses %j', text => {
    expect(readTerms(text)).toBeUndefined();
  });
});

describe('readMass', () => {
  it.each([
    ['2.4 kg', '2400'],
    ['1 lb 12 oz', '793.7866475'],
    ['1 1/2 lbs', '680.388555'],
    ['500 mg', '0.5'],
  ])('reads %j as %s g', (text, expected) => {
    expect(massText(text)).toBe(expected);
  });

  it.each(['0 g', '5 mL', '5 %', '2.4', '1 cup 5 g', '2.4 KG'])('refuses %j', text => {
    expect(readMass(text)).toBeUndefined();
  });
});
