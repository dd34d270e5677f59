/**
 * Rational arithmetic written apart from the program's, to check it against: pairs of big integers,
 * never in lowest terms, compared by cross-multiplication. Denominators are positive.
 */
export type Fraction = readonly [num: bigint, den: bigint];

export const plus = (a: Fraction, b: Fraction): Fraction => [
  a[0] * b[1] + b[0] * a[1],
  a[1] * b[1],
];
export const minus = (a: Fraction, b: Fraction): Fraction => [
  a[0] * b[1] - b[0] * a[1],
  a[1] * b[1],
];
export const by = (a: Fraction, b: Fraction): Fraction => [a[0] * b[0], a[1] * b[1]];
export const over = (a: Fraction, b: Fraction): Fraction => [a[0] * b[1], a[1] * b[0]];
export const order = (a: Fraction, b: Fraction): bigint => a[0] * b[1] - b[0] * a[1];

/** The greatest whole number that is not above; built by long division, remainder made positive. */
export const wholeBelow = ([num, den]: Fraction): bigint =>
  (num - (((num % den) + den) % den)) / den;

export const wholeAbove = ([num, den]: Fraction): bigint => -wholeBelow([-num, den]);
