import { readTerms, type Term } from '../quantity/amount.ts';
import { readNumber } from '../quantity/decimal.ts';
import {
  add,
  compare,
  type Density,
  dividedBy,
  gramsPerMillilitre,
  isNegative,
  isPositive,
  type Mass,
  one,
  type Quantity,
  type Ratio,
  ratio,
  times,
  type Volume,
} from '../quantity/quantity.ts';
import { massUnits, unitNamed, volumeUnits } from '../quantity/unit.ts';
import { quote } from './quote.ts';
import { fromNumericText } from './read-number.ts';
import type { Fault, Reader } from './reader.ts';
import { mendUnit } from './unit-mend.ts';

const schema = { type: 'string' };

/** The terms of a text, or the report that it has none. */
export const termsOf = (
  text: string,
  example: string,
  fault: Fault,
  units: readonly string[] = [/[^\d\s]+$/.exec(example)?.[0] ?? ''],
): readonly Term[] | undefined => {
  const terms = readTerms(text);
  if (terms !== undefined) return terms;
  const mend =
    readNumber(text) === undefined
      ? `Write a number with its unit, such as ${example}`
      : `Add the unit, such as ${units.map(unit => `${text} ${unit}`).join(' or ')}`;
  return fault('bad-amount', `${quote(text)} is not a number with a unit.`, mend);
};

/** One term in a unit of `units`, or the report that its unit is none of them. */
export const inUnits = <U extends string>(
  text: string,
  { amount, unit }: Term,
  units: ReadonlyMap<string, Quantity<U>>,
  fault: Fault,
): Quantity<U> | undefined => {
  const factor = units.get(unitNamed(unit, units) ?? '');
  return factor === undefined
    ? fault(
        'unknown-unit',
        `The unit ${quote(unit)} cannot stand here.`,
        mendUnit(text, unit, units.keys()),
      )
    : times<U>(factor, amount);
};

const sumIn = <U extends string>(
  units: ReadonlyMap<string, Quantity<U>>,
  example: string,
): Reader<Quantity<U>> =>
  fromNumericText(
    example,
    (text, fault) => {
      let total: Quantity<U> | undefined;
      for (const term of termsOf(text, example, fault) ?? []) {
        const next = inUnits(text, term, units, fault);
        if (next === undefined) return undefined;
        total = total === undefined ? next : add<U>(total, next);
      }
      if (total === undefined || isPositive(total)) return total;
      return fault(
        'out-of-range',
        'Nothing at all is not possible here.',
        `Write for example ${example}`,
      );
    },
    schema,
  );

/** A mass above zero; `1 lb 12 oz` is a sum. */
export const mass = (example: string): Reader<Mass> => sumIn(massUnits, example);

/** A volume above zero in a built-in unit. */
export const volume = (example: string): Reader<Volume> => sumIn(volumeUnits, example);

/** A mass a volume, in any two units: `1.05 g/mL`, `128 g/cup`. */
export const density = (example: string): Reader<Density> =>
  fromNumericText(
    example,
    (text, fault) => {
      const [, above = '', below = ''] = /^(.*)\/([^/\d]+)$/.exec(text) ?? [];
      const [term, ...more] = readTerms(above) ?? [];
      if (term === undefined || more.length > 0) {
        return fault(
          'bad-amount',
          `${quote(text)} is not a density.`,
          `Write for example ${example}`,
        );
      }
      const over = inUnits(text, term, massUnits, fault);
      const under = inUnits(text, { amount: one, unit: below.trim() }, volumeUnits, fault);
      if (over === undefined || under === undefined) return undefined;
      const value = ratio(over.num * under.den, over.den * under.num);
      if (isPositive(value)) return gramsPerMillilitre(value);
      return fault('out-of-range', 'A density is above zero.', `Write for example ${example}`);
    },
    schema,
  );

interface Bounds {
  readonly isZeroPossible: boolean;
  readonly isAllPossible: boolean;
}

const hundred = ratio(100n);

/** A term in per cent, as a ratio of one; undefined for any other unit. */
export const shareOf = ({ amount, unit }: Term): Ratio | undefined =>
  unit === '%' ? dividedBy(amount, hundred) : undefined;

/** Reports a share that cannot be. */
export const checkShare = (share: Ratio, bounds: Bounds, fault: Fault): Ratio | undefined => {
  const isHigh = compare(share, one) > (bounds.isAllPossible ? 0 : -1);
  const isLow = isNegative(share) || (share.num === 0n && !bounds.isZeroPossible);
  if (!isHigh && !isLow) return share;
  const low = bounds.isZeroPossible ? 'from 0 %' : 'above 0 %';
  const high = bounds.isAllPossible ? 'up to 100 %' : 'to less than 100 %';
  return fault(
    'out-of-range',
    'This percentage is not possible here.',
    `Write one ${low} ${high}.`,
  );
};

/** A percentage as a ratio of one. */
export const percentage = (example: string, bounds: Bounds): Reader<Ratio> =>
  fromNumericText(
    example,
    (text, fault) => {
      const [term, ...more] = termsOf(text, example, fault) ?? [];
      if (term === undefined) return undefined;
      const share = more.length === 0 ? shareOf(term) : undefined;
      if (share !== undefined) return checkShare(share, bounds, fault);
      const mend = mendUnit(text, term.unit, ['%']);
      return fault('unknown-unit', `${quote(text)} is not a percentage.`, mend);
    },
    schema,
  );
