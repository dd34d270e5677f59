/**
 * Exact quantities. Every mass, volume and ratio of the program is a fraction of two big integers in
 * lowest terms, so a sum, a window or a verdict is never off by a rounding. The unit is part of the
 * type: adding a mass to a volume does not compile. Masses are in grams, volumes in millilitres,
 * densities in grams a millilitre.
 */
declare const unit: unique symbol;

export interface Quantity<U extends string> {
  readonly num: bigint;
  /** Always positive. */
  readonly den: bigint;
  readonly [unit]: U;
}

export type Ratio = Quantity<'1'>;
export type Mass = Quantity<'g'>;
export type Volume = Quantity<'mL'>;
export type Density = Quantity<'g/mL'>;

/** Of two numbers that are not negative. */
export const gcd = (a: bigint, b: bigint): bigint => (b === 0n ? a : gcd(b, a % b));

// The one place where a brand is given; every constructor below names its unit.
const make = <U extends string>(num: bigint, den: bigint): Quantity<U> => {
  if (den === 0n) throw new RangeError('a quantity with denominator zero');
  const sign = den < 0n ? -1n : 1n;
  const common = gcd(num < 0n ? -num : num, den * sign) || 1n;
  // oxlint-disable-next-line typescript/no-unsafe-type-assertion
  return { num: (sign * num) / common, den: (sign * den) / common } as Quantity<U>;
};

/** A pure number: `ratio(1n, 3n)` is exactly one third. */
export const ratio = (num: bigint, den = 1n): Ratio => make(num, den);
/** A mass of so many grams. */
export const grams = (value: Ratio): Mass => make(value.num, value.den);
/** A volume of so many millilitres. */
export const millilitres = (value: Ratio): Volume => make(value.num, value.den);
/** A density of so many grams a millilitre. */
export const gramsPerMillilitre = (value: Ratio): Density => make(value.num, value.den);

export const zero: Ratio = ratio(0n);
export const one: Ratio = ratio(1n);
export const noMass: Mass = grams(zero);

export const add = <U extends string>(a: Quantity<U>, b: Quantity<NoInfer<U>>): Quantity<U> =>
  make(a.num * b.den + b.num * a.den, a.den * b.den);

export const subtract = <U extends string>(a: Quantity<U>, b: Quantity<NoInfer<U>>): Quantity<U> =>
  make(a.num * b.den - b.num * a.den, a.den * b.den);

export const times = <U extends string>(a: Quantity<U>, by: Ratio): Quantity<U> =>
  make(a.num * by.num, a.den * by.den);

export const dividedBy = <U extends string>(a: Quantity<U>, by: Ratio): Quantity<U> =>
  make(a.num * by.den, a.den * by.num);

/** How many times `b` goes into `a`, exactly. Throws a RangeError when `b` is zero. */
export const ratioOf = <U extends string>(a: Quantity<U>, b: Quantity<NoInfer<U>>): Ratio =>
  make(a.num * b.den, a.den * b.num);

export const massOf = (volume: Volume, density: Density): Mass =>
  make(volume.num * density.num, volume.den * density.den);

export const negate = <U extends string>(a: Quantity<U>): Quantity<U> => make(-a.num, a.den);

export const absolute = <U extends string>(a: Quantity<U>): Quantity<U> =>
  a.num < 0n ? negate(a) : a;

export const sum = <U extends string>(start: Quantity<U>, all: readonly Quantity<NoInfer<U>>[]) =>
  all.reduce((total, next) => add(total, next), start);

/** Negative, zero or positive as `a` is less than, equal to or greater than `b`. */
export const compare = <U extends string>(a: Quantity<U>, b: Quantity<NoInfer<U>>): -1 | 0 | 1 => {
  const difference = a.num * b.den - b.num * a.den;
  return difference < 0n ? -1 : difference > 0n ? 1 : 0;
};

export const isLess = <U extends string>(a: Quantity<U>, b: Quantity<NoInfer<U>>): boolean =>
  compare(a, b) < 0;

export const isMore = <U extends string>(a: Quantity<U>, b: Quantity<NoInfer<U>>): boolean =>
  compare(a, b) > 0;

export const isEqual = <U extends string>(a: Quantity<U>, b: Quantity<NoInfer<U>>): boolean =>
  compare(a, b) === 0;

export const smaller = <U extends string>(a: Quantity<U>, b: Quantity<NoInfer<U>>): Quantity<U> =>
  isMore(a, b) ? b : a;

export const larger = <U extends string>(a: Quantity<U>, b: Quantity<NoInfer<U>>): Quantity<U> =>
  isLess(a, b) ? b : a;

export const isZero = (a: Quantity<string>): boolean => a.num === 0n;
export const isPositive = (a: Quantity<string>): boolean => a.num > 0n;
export const isNegative = (a: Quantity<string>): boolean => a.num < 0n;
