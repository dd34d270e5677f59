/**
 * A line in whole numbers of one unit of mass common to the whole situation, so that windows at any
 * stretch p/q are compared by cross multiplication and nothing is reduced on the way.
 */
import { gcd, type Mass, type Ratio, ratioOf } from '../quantity/quantity.ts';
import { toWhole } from '../quantity/rounding.ts';
import type { Allowance, Tolerance } from '../sheet/sheet.ts';
import type { Line, Situation } from './situation.ts';

/** A number that is not in lowest terms; the denominator is positive. */
export type Fraction = Pick<Ratio, 'num' | 'den'>;

/** One side of a window at stretch s: the larger of `grows` · s and `stays`. */
interface Side {
  readonly grows: bigint;
  readonly stays: bigint;
}

export interface MeasuredLine {
  readonly line: Line;
  /** Positive. */
  readonly target: bigint;
  readonly net: bigint;
  readonly division: bigint;
  /** Least mass that can be weighed, in divisions. */
  readonly leastDivisions: bigint;
  readonly under: Side;
  readonly over: Side;
}

export const largerOf = (a: bigint, b: bigint): bigint => (a > b ? a : b);

const denominatorsOf = ({ exact, net, scale, tolerance }: Line): readonly bigint[] => [
  net.den,
  scale.readability.den,
  tolerance.floor?.den ?? 1n,
  ...[tolerance.under, tolerance.over].map(side =>
    side.kind === 'share' ? exact.den * side.share.den : side.mass.den,
  ),
  exact.den,
];

/** The parts of a gram in which every mass of the situation is a whole number. */
export const unitOf = ({ lines, adjusts, vessels, stock }: Situation): bigint => {
  let unit = 1n;
  const hold = (den: bigint): void => {
    if (unit % den !== 0n) unit *= den / gcd(unit, den);
  };
  for (const line of lines) denominatorsOf(line).forEach(hold);
  for (const { net, most } of adjusts) [net.den, most.den].forEach(hold);
  for (const { mass, holds } of vessels.values()) [mass.den, holds?.den ?? 1n].forEach(hold);
  for (const { den } of stock.values()) hold(den);
  return unit;
};

/** A mass in units of 1/`unit` g; `unit` is a multiple of its denominator. */
export const inUnits = ({ num, den }: Mass, unit: bigint): bigint => num * (unit / den);

// A floor widens a side only where it is not zero, as windowOf has it.
const sideOf = (
  allowance: Allowance,
  { floor }: Tolerance,
  { num, den }: Mass,
  unit: bigint,
): Side => {
  const least = floor === undefined ? 0n : inUnits(floor, unit);
  if (allowance.kind === 'share') {
    const { share } = allowance;
    const grows = num * share.num * (unit / (den * share.den));
    return grows === 0n ? { grows, stays: 0n } : { grows, stays: least };
  }
  const stays = inUnits(allowance.mass, unit);
  return { grows: 0n, stays: stays === 0n ? 0n : largerOf(stays, least) };
};

export const measureLine = (line: Line, unit: bigint): MeasuredLine => {
  const { exact, tolerance, scale } = line;
  const loads = toWhole(ratioOf<'g'>(scale.leastLoad, scale.readability), 'up');
  return {
    line,
    target: inUnits(exact, unit),
    net: inUnits(line.net, unit),
    division: inUnits(scale.readability, unit),
    leastDivisions: largerOf(loads, 1n),
    under: sideOf(tolerance.under, tolerance, exact, unit),
    over: sideOf(tolerance.over, tolerance, exact, unit),
  };
};

const widthAt = ({ grows, stays }: Side, { num, den }: Fraction): bigint =>
  largerOf(grows * num, stays * den);

/** Lower end of the window at a stretch, in parts of the unit as many as the stretch's denominator. */
export const lowAt = ({ target, under }: MeasuredLine, s: Fraction): bigint =>
  target * s.num - widthAt(under, s);

/** Upper end of the window, in the same parts. */
export const highAt = ({ target, over }: MeasuredLine, s: Fraction): bigint =>
  target * s.num + widthAt(over, s);

/** The least stretch at which the window reaches up to a mass. */
export const whereHighIs = ({ target, over }: MeasuredLine, mass: bigint): Fraction => {
  const growing = { num: mass, den: target + over.grows };
  const staying = { num: mass - over.stays, den: target };
  return isBelow(staying, growing) ? staying : growing;
};

export const isBelow = (a: Fraction, b: Fraction): boolean => a.num * b.den < b.num * a.den;
