/** Fractions of the tests' own kind as the program takes them. */
import { grams, type Mass, type Ratio, ratio } from '../../src/core/quantity/quantity.ts';
import type { Allowance, Tolerance } from '../../src/core/sheet/sheet.ts';
import type { Fraction } from './fraction.ts';

/** One side of a window. */
export interface Side {
  readonly kind: 'share' | 'mass';
  readonly value: Fraction;
}

export const ratioOf = ([num, den]: Fraction): Ratio => ratio(num, den);
export const massOf = (value: Fraction): Mass => grams(ratioOf(value));

const allowanceOf = ({ kind, value }: Side): Allowance =>
  kind === 'share' ? { kind, share: ratioOf(value) } : { kind, mass: massOf(value) };

export const toleranceOf = ({
  under,
  over,
  floor,
}: {
  readonly under: Side;
  readonly over: Side;
  readonly floor: Fraction | undefined;
}): Tolerance => ({
  under: allowanceOf(under),
  over: allowanceOf(over),
  ...(floor === undefined ? {} : { floor: massOf(floor) }),
});
