import { describe, expect, it } from 'vitest';
import {
  minusSign,
  showDifference,
  showDuration,
  showGrams,
  showMass,
  showShare,
  thinSpace,
} from '../../../src/core/quantity/show.ts';
import { massIn } from '../../../src/core/quantity/unit.ts';
import { mass, number, percent } from '../../helpers/sheet.ts';

// Invented scales.
const big = { unit: 'g', readability: mass('0.1') };
const kilo = { unit: 'kg', readability: mass('1') };
const postal = { unit: 'oz', readability: massIn(number('0.05'), 'oz') };
const plain = (text: string) => text.replaceAll(thinSpace, '_').replaceAll(minusSign, '-');

describe('showMass', () => {
  it.each([
    ['1234.5', big, '1_234.5 g'],
    ['1234567', big, '1_234_567.0 g'],
    ['999.96', big, '1_000.0 g'],
    ['100', big, '100.0 g'],
    ['171000/49', big, '3_489.8 g'],
    ['12.25', big, '12.2 g'],
    ['12.35', big, '12.4 g'],
    ['0', big, '0.0 g'],
    ['-0.04', big, '0.0 g'],
    ['-3.4', big, '-3.4 g'],
    ['1234.5', kilo, '1.234 kg'],
    ['28.349523125', postal, '1.00 oz'],
  ])('shows %s g as %o says', (text, scale, expected) => {
    expect(plain(showMass(mass(text), scale))).toBe(expected);
  });

  it('shows a gram display that was switched to ounces with decimals enough to tell grams apart', () => {
    expect(plain(showMass(mass('812'), { unit: 'oz', readability: mass('1') }))).toBe('28.64 oz');
  });
});

describe('other quantities', () => {
  it('shows grams with the decimals asked for', () => {
    expect(plain(showGrams(mass('171000/49'), 4))).toBe('3_489.7959 g');
    expect(plain(showGrams(mass('0.5'), 0))).toBe('0 g');
  });

  it('shows a difference with its sign, small ones too', () => {
    expect(plain(showDifference(mass('3.4'), big))).toBe('+3.4 g');
    expect(plain(showDifference(mass('-3.4'), big))).toBe('-3.4 g');
    expect(plain(showDifference(mass('0.01'), big))).toBe('+0.0 g');
    expect(plain(showDifference(mass('0'), big))).toBe('0.0 g');
  });

  it('shows a share in per cent', () => {
    expect(showShare(percent('2.4'), 2)).toBe('2.40 %');
    expect(showShare(percent('0.125'), 2)).toBe('0.12 %');
  });

  it.each([
    [0, '0 s'],
    [45, '45 s'],
    [60n, '1 min'],
    [750, '12 min 30 s'],
    [3600n, '1 h'],
    [4800, '1 h 20 min'],
    [129_600n, '36 h'],
    [172_800n, '2 days'],
    [273_600n, '3 days 4 h'],
    [-45, '-45 s'],
    [59.9, '59 s'],
  ])('shows %s seconds as %s', (seconds, expected) => {
    expect(plain(showDuration(seconds))).toBe(expected);
  });
});
