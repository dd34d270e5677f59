import { type Quantity, type Ratio, ratio, ratioOf, times } from './quantity.ts';

/** How a number between two whole ones is rounded; a caller always names it. */
export type Rounding = 'down' | 'up' | 'half-even';

/** It need not be in lowest terms; the denominator is positive. */
type Fraction = Pick<Ratio, 'num' | 'den'>;

const floor = (value: Fraction): bigint => {
  const whole = value.num / value.den;
  return value.num < 0n && whole * value.den !== value.num ? whole - 1n : whole;
};

/** The whole number next to `value`: the one below, the one above, or the nearest with ties to even (NIST SP 811 B.7.1). */
export const toWhole = (value: Fraction, rounding: Rounding): bigint => {
  const below = floor(value);
  const remainder = value.num - below * value.den;
  if (remainder === 0n || rounding === 'down') return below;
  if (rounding === 'up') return below + 1n;
  const twice = 2n * remainder;
  if (twice !== value.den) return twice < value.den ? below : below + 1n;
  return below % 2n === 0n ? below : below + 1n;
};

/** The multiple of `step` next to `value`. `step` must be positive. */
export const toMultiple = <U extends string>(
  value: Quantity<U>,
  step: Quantity<NoInfer<U>>,
  rounding: Rounding,
): Quantity<U> => times<U>(step, ratio(toWhole(ratioOf<U>(value, step), rounding)));
