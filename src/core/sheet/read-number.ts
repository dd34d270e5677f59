import { readNumber } from '../quantity/decimal.ts';
import { type Ratio } from '../quantity/quantity.ts';
import { quote } from './quote.ts';
import { type Fault, fromText, type Reader, type Schema } from './reader.ts';

// Of comma and point, the one that comes last is the decimal sign, and the other parts thousands.
const withPoint = (number: string): string =>
  number.lastIndexOf(',') > number.lastIndexOf('.') && number.split(',').length === 2
    ? number.replaceAll('.', '').replace(',', '.')
    : number.replaceAll(',', '');

const mendCommas = (text: string): string => {
  const mend = `Write ${text.replace(/\d[\d.,]*\d/g, withPoint)}`;
  const isUnclear = /(?<![\d.,])\d{1,3},\d{3}(?![\d.,])/.test(text);
  return isUnclear ? `${mend}, or without the comma if it parts thousands` : mend;
};

/** Reads text that holds numbers, once no comma stands in one. */
export const fromNumericText = <T>(
  example: string,
  parse: (text: string, fault: Fault) => T | undefined,
  schema?: Schema,
): Reader<T> =>
  fromText(
    example,
    (text, fault) => {
      if (!/\d,\d/.test(text)) return parse(text, fault);
      return fault('decimal-comma', `${quote(text)} has a comma in a number.`, mendCommas(text));
    },
    schema,
  );

/** A whole number from `least` to `most`. */
export const whole = (example: string, least: number, most: number): Reader<number> =>
  fromNumericText(
    example,
    (text, fault) => {
      const number = /^\d{1,12}$/.test(text) ? Number(text) : undefined;
      if (number === undefined) {
        return fault(
          'bad-number',
          `${quote(text)} is no whole number.`,
          `Write for example ${example}`,
        );
      }
      if (number >= least && number <= most) return number;
      const mend = `Write a number from ${least} to ${most}.`;
      return fault('out-of-range', `${number} is not possible here.`, mend);
    },
    { type: ['integer', 'string'], minimum: least, maximum: most },
  );

/** A number without a unit, which may be negative. */
export const plainNumber = (example: string): Reader<Ratio> =>
  fromNumericText(
    example,
    (text, fault) =>
      readNumber(text) ??
      fault(
        'bad-number',
        `${quote(text)} is no number.`,
        `Write a number alone, such as ${example}`,
      ),
    { type: ['number', 'string'] },
  );
