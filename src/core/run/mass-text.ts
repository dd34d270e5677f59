import { readNumber } from '../quantity/decimal.ts';
import { grams, type Mass, type Ratio } from '../quantity/quantity.ts';
import type { Grams } from './event.ts';

/** The number that an event keeps as exact text. Throws a RangeError for text that no event may hold. */
export const ratioFrom = (text: string): Ratio => {
  const value = readNumber(text);
  if (value === undefined) throw new RangeError(`not a number: ${text}`);
  return value;
};

/** The mass that an event keeps as exact text. Throws a RangeError for text that no event may hold. */
export const massFrom = (text: Grams): Mass => grams(ratioFrom(text));
