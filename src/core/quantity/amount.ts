import { readNumber } from './decimal.ts';
import { add, isPositive, type Mass, noMass, type Ratio } from './quantity.ts';
import { massIn, massUnits, unitNamed } from './unit.ts';

/** A number and its unit as it was written: `cups`, `%`, `fl oz`. Which unit it is, the caller looks up. */
export interface Term {
  readonly amount: Ratio;
  readonly unit: string;
}

// A mixed number comes first, or `1 1/2 cups` would stop at its blank.
const number = String.raw`\d+\s+\d+\/\d+|\d+(?:[./]\d+)?`;
const unit = String.raw`[\p{L}%°]+(?:\s+[\p{L}%°]+)*`;
const termPattern = new RegExp(String.raw`(${number})\s*(${unit})\s*`, 'uy');

const longest = 60;

/**
 * Splits `1 lb 12 oz`, `62%` or `1 1/2 cups` into its terms, at least one. Answers undefined for
 * anything else: no unit, a sign, a comma, more than 60 characters.
 */
export const readTerms = (text: string): readonly Term[] | undefined => {
  const trimmed = text.trim();
  if (trimmed === '' || trimmed.length > longest) return undefined;
  const terms: Term[] = [];
  termPattern.lastIndex = 0;
  while (termPattern.lastIndex < trimmed.length) {
    const [, digits = '', name = ''] = termPattern.exec(trimmed) ?? [];
    const amount = readNumber(digits);
    if (amount === undefined) return undefined;
    terms.push({ amount, unit: name.replace(/\s+/g, ' ') });
  }
  return terms;
};

/** Reads a mass above zero as a sheet writes it, sums included: `2.4 kg`, `1 lb 12 oz`. */
export const readMass = (text: string): Mass | undefined => {
  let total = noMass;
  for (const { amount, unit } of readTerms(text) ?? []) {
    const name = unitNamed(unit, massUnits);
    if (name === undefined) return undefined;
    total = add(total, massIn(amount, name));
  }
  return isPositive(total) ? total : undefined;
};
