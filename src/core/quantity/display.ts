import { placesOf } from './decimal.ts';
import { type Mass, one, type Ratio, ratioOf } from './quantity.ts';
import { massIn } from './unit.ts';

/** What a scale's display can say: the unit it shows, its readability and its capacity, both in grams. */
export interface Display {
  /** A key of massUnits. */
  readonly unit: string;
  readonly readability: Mass;
  readonly capacity: Mass;
}

/** How many of a unit of mass a mass is, exactly. */
export const inUnit = (mass: Mass, unit: string): Ratio => ratioOf<'g'>(mass, massIn(one, unit));

/** Decimals that the display shows in its own unit, or in another that it can be switched to. */
export const decimalsOf = (
  { readability, unit }: Pick<Display, 'readability' | 'unit'>,
  shown = unit,
): number => placesOf(inUnit(readability, shown));
