import { readNumber } from '../quantity/decimal.ts';
import { grams, type Mass } from '../quantity/quantity.ts';
import type { Grams } from './event.ts';

/** The mass that an event keeps as exact text. Throws a RangeError for text that no event may hold. */
export const massFrom = (text: Grams): Mass => {
  const value = readNumber(text);
  if (value === undefined) throw new RangeError(`not a mass in grams: ${text}`);
  return grams(value);
};
