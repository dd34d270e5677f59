import { toDecimal } from '../quantity/decimal.ts';
import {
  dividedBy,
  type Mass,
  noMass,
  type Quantity,
  type Ratio,
  ratio,
  subtract,
  sum,
  times,
} from '../quantity/quantity.ts';

/** A share as per cent with so many decimals, ties to even. */
export const percentText = (share: Ratio, places: number): string =>
  toDecimal(times(share, ratio(100n)), places, 'half-even');

/** The largest whole number whose square is not above `n`; `n` must not be negative. */
const wholeRoot = (n: bigint): bigint => {
  if (n < 2n) return n;
  let root = 1n << BigInt((n.toString(2).length + 1) >> 1);
  for (;;) {
    const next = (root + n / root) >> 1n;
    if (next >= root) return root;
    root = next;
  }
};

/** Decimal text of a square root, rounded half to even (a root that is half-way is itself exact). */
export const rootText = (value: Quantity<string>, places: number): string => {
  // One further digit and a sticky one decide the rounding exactly.
  const scale = 10n ** BigInt(places + 2);
  const scaled = value.num * value.den * scale * scale;
  const root = wholeRoot(scaled);
  const isExact = root * root === scaled;
  return toDecimal(
    ratio(isExact ? root * 2n : root * 2n + 1n, value.den * scale * 2n),
    places,
    'half-even',
  );
};

export const meanOf = (masses: readonly Mass[]): Mass =>
  dividedBy(sum(noMass, masses), ratio(BigInt(masses.length)));

/** Sample variance (n − 1) in square grams, exact; needs two masses at least. */
export const varianceOf = (masses: readonly Mass[]): Ratio => {
  const mean = meanOf(masses);
  const squares = masses.map(mass => {
    const off = subtract(mass, mean);
    return ratio(off.num * off.num, off.den * off.den);
  });
  return dividedBy(sum(ratio(0n), squares), ratio(BigInt(masses.length - 1)));
};

/** Sample standard deviation (n − 1) in grams, 0.0001 g; needs two masses at least. */
export const spreadText = (masses: readonly Mass[]): string => rootText(varianceOf(masses), 4);
