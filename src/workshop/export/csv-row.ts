/** What the columns of the CSV are, and the numbers in them. */
import { readNumber, toDecimal } from '../../core/quantity/decimal.ts';

/** In this order; README.md says what each holds. */
export const csvColumns = [
  'batch',
  'practice',
  'kind',
  'seq',
  'at',
  'by',
  'step',
  'phase',
  'what',
  'lot',
  'vessel',
  'scale',
  'way',
  'part',
  'typed',
  'value',
  'unit',
  'least',
  'most',
  'reading_g',
  'net_g',
  'total_g',
  'waste_g',
  'target_g',
  'low_g',
  'high_g',
  'verdict',
  'text',
] as const;

export type CsvRow = Readonly<Partial<Record<(typeof csvColumns)[number], string | undefined>>>;

/** An exact number of the record as a decimal: as it is, or where none ends to four places, ties to even. */
export const decimalCell = (exact: string | undefined): string | undefined => {
  const value = exact?.includes('/') ? readNumber(exact) : undefined;
  return value === undefined ? exact : toDecimal(value, 4, 'half-even');
};
