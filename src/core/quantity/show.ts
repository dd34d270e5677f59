/**
 * Quantities as people read them. Beyond ASCII only two characters are ever used, `thinSpace` between
 * groups of three digits and `minusSign`; a face without them puts a blank and a hyphen instead.
 */
import { toDecimal } from './decimal.ts';
import { type Display, decimalsOf, inUnit } from './display.ts';
import {
  absolute,
  isNegative,
  isPositive,
  type Mass,
  type Ratio,
  ratio,
  times,
} from './quantity.ts';

/** Narrow and never broken at the end of a line. */
export const thinSpace = '\u202f';
export const minusSign = '\u2212';

type Shown = Pick<Display, 'unit' | 'readability'>;

const group = (digits: string): string => {
  const [whole = '', decimals] = digits.split('.');
  const grouped = whole.replace(/\B(?=(?:\d{3})+$)/g, thinSpace);
  return decimals === undefined ? grouped : `${grouped}.${decimals}`;
};

const showNumber = (value: Ratio, places: number): string => {
  const digits = group(toDecimal(absolute(value), places, 'half-even'));
  return isNegative(value) && /[1-9]/.test(digits) ? minusSign + digits : digits;
};

/** On a scale's unit with the scale's decimals, ties to even: `1 234.5 g`. */
export const showMass = (mass: Mass, scale: Shown): string =>
  `${showNumber(inUnit(mass, scale.unit), decimalsOf(scale))} ${scale.unit}`;

/** In grams with so many decimals, ties to even. */
export const showGrams = (mass: Mass, places: number): string =>
  `${showNumber(inUnit(mass, 'g'), places)} g`;

/** With its sign, so that a face can say over or under: `+3.4 g`; nothing at all has none. */
export const showDifference = (mass: Mass, scale: Shown): string => {
  const size = showMass(absolute(mass), scale);
  return isPositive(mass) ? `+${size}` : isNegative(mass) ? minusSign + size : size;
};

/** In per cent with so many decimals, ties to even: `2.40 %`. */
export const showShare = (share: Ratio, places: number): string =>
  `${showNumber(times(share, ratio(100n)), places)} %`;

const pair = (large: bigint, unit: string, small: bigint, smallUnit: string): string =>
  small === 0n ? `${large} ${unit}` : `${large} ${unit} ${small} ${smallUnit}`;

/** Seconds as `45 s`, `12 min 30 s`, `1 h 20 min`, `3 days 4 h`; what is smaller is dropped. */
export const showDuration = (seconds: bigint | number): string => {
  const whole = typeof seconds === 'bigint' ? seconds : BigInt(Math.trunc(seconds));
  if (whole < 0n) return minusSign + showDuration(-whole);
  const hours = whole / 3600n;
  if (hours >= 48n) return pair(hours / 24n, 'days', hours % 24n, 'h');
  if (hours > 0n) return pair(hours, 'h', (whole / 60n) % 60n, 'min');
  return whole < 60n ? `${whole} s` : pair(whole / 60n, 'min', whole % 60n, 's');
};
