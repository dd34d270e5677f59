import { type Quantity, type Ratio, ratio } from './quantity.ts';
import { type Rounding, toWhole } from './rounding.ts';

const tenTo = (places: number): bigint => 10n ** BigInt(places);

/**
 * Reads a number as a sheet or a record writes it: `12`, `12.5`, `1/2`, `1 1/2`, with an optional
 * leading minus (`-` or `−`). Answers undefined for anything else, a comma included.
 */
export const readNumber = (text: string): Ratio | undefined => {
  const match = /^([-−]?)(?:(\d{1,200})\s+)?(\d{1,200})(?:\.(\d{1,200})|\/(\d{1,200}))?$/.exec(
    text.trim(),
  );
  if (match === null) return undefined;
  const [, minus, whole, digits = '', decimals, under] = match;
  if (whole !== undefined && under === undefined) return undefined;
  const den = under === undefined ? tenTo(decimals?.length ?? 0) : BigInt(under);
  if (den === 0n) return undefined;
  const num = BigInt(digits + (decimals ?? '')) + BigInt(whole ?? 0) * den;
  return ratio(minus === '' ? num : -num, den);
};

/** Decimal text with exactly `places` decimals, rounded as named. `-` before a negative. */
export const toDecimal = (value: Quantity<string>, places: number, rounding: Rounding): string => {
  const scaled = toWhole(ratio(value.num * tenTo(places), value.den), rounding);
  const digits = (scaled < 0n ? -scaled : scaled).toString().padStart(places + 1, '0');
  const cut = digits.length - places;
  const text = places === 0 ? digits : `${digits.slice(0, cut)}.${digits.slice(cut)}`;
  return scaled < 0n ? `-${text}` : text;
};

/** The shortest exact text: a decimal where one ends (`2.5`), else a fraction (`171000/49`). `readNumber` reads it back. */
export const toExact = (value: Quantity<string>): string => {
  let { den } = value;
  let twos = 0;
  let fives = 0;
  for (; den % 2n === 0n; den /= 2n) twos += 1;
  for (; den % 5n === 0n; den /= 5n) fives += 1;
  const places = Math.max(twos, fives);
  return den === 1n && places <= 30 ? toDecimal(value, places, 'half-even') : toFraction(value);
};

/** `104/101`; whole numbers too, as `2/1`. */
export const toFraction = (value: Quantity<string>): string => `${value.num}/${value.den}`;

/**
 * How many decimals a multiple of `step` needs: 1 for 0.1, 2 for 0.05, 0 for 2. Where no number of
 * decimals is enough (a gram in ounces), as many as tell two neighbours apart.
 */
export const placesOf = (step: Quantity<string>): number => {
  const text = toExact(step);
  if (text.includes('/')) return placesAbove(step);
  const point = text.indexOf('.');
  return point < 0 ? 0 : text.length - point - 1;
};

const placesAbove = ({ num, den }: Quantity<string>): number => {
  let places = 0;
  while (places < 30 && num * tenTo(places) < den) places += 1;
  return places;
};
