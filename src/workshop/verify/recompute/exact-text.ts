import { readNumber } from '../../../core/quantity/decimal.ts';
import { grams, type Mass, type Ratio } from '../../../core/quantity/quantity.ts';

/** Reads exact text of the record. Throws a RangeError for anything else. */
export const numberFrom = (exact: string): Ratio => {
  const value = readNumber(exact);
  if (value === undefined) throw new RangeError(`“${exact.slice(0, 40)}” is not a number`);
  return value;
};

/** A mass of so many grams. Throws a RangeError where the text is no number. */
export const massFrom = (exact: string): Mass => grams(numberFrom(exact));
