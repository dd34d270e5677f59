import { readNumber } from '../quantity/decimal.ts';
import { grams, larger, type Mass, ratio, times, zero } from '../quantity/quantity.ts';
import { rootText, varianceOf } from '../result/statistics.ts';

/** How many weighings of one mass a repeatability is taken from, at least (USP <41>). */
const fewestWeighings = 10;

/**
 * Sample standard deviation of readings of one mass, in grams to 0.000 001 g, half to even. Undefined
 * for fewer than ten readings.
 */
export const repeatabilityOf = (readings: readonly Mass[]): Mass | undefined =>
  readings.length < fewestWeighings
    ? undefined
    : grams(readNumber(rootText(varianceOf(readings), 6)) ?? zero);

/** The least net mass by the rule of USP <41>: 2000 · s, where s is taken as 0.41 d at least. */
export const minimumWeight = (repeatability: Mass, readability: Mass): Mass =>
  times(larger(repeatability, times(readability, ratio(41n, 100n))), ratio(2000n));
