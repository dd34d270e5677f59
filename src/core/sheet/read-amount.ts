import type { Term } from '../quantity/amount.ts';
import { isPositive, type Ratio } from '../quantity/quantity.ts';
import { quote } from './quote.ts';
import { fromNumericText } from './read-number.ts';
import { checkShare, shareOf, termsOf } from './read-quantity.ts';
import type { Fault, Reader } from './reader.ts';
import { mendUnit } from './unit-mend.ts';

/** An amount before its material says what a volume or a count of it weighs. */
export type DraftAmount =
  | { readonly kind: 'share'; readonly share: Ratio }
  | { readonly kind: 'rest' }
  | DraftSum;

export interface DraftSum {
  readonly kind: 'sum';
  readonly terms: readonly Term[];
  readonly typed: string;
}

const sum = (
  text: string,
  example: string,
  fault: Fault,
  units?: readonly string[],
): DraftSum | undefined => {
  const terms = termsOf(text, example, fault, units);
  if (terms === undefined) return undefined;
  if (terms.some(term => isPositive(term.amount))) return { kind: 'sum', terms, typed: text };
  return fault(
    'out-of-range',
    'Nothing at all is not possible here.',
    `Write for example ${example}`,
  );
};

const schema = { type: 'string' };

/** `62 %`, `rest`, or an absolute amount in any unit. */
export const amount = (example: string): Reader<DraftAmount> =>
  fromNumericText(
    example,
    (text, fault) => {
      if (text === 'rest') return { kind: 'rest' };
      const read = sum(text, example, fault, ['%', 'g']);
      const [only, ...more] = read?.terms ?? [];
      if (only !== undefined && /^per ?cents?$/i.test(only.unit)) {
        const message = `The unit ${quote(only.unit)} cannot stand here.`;
        return fault('unknown-unit', message, mendUnit(text, only.unit, ['%']));
      }
      const share = only === undefined || more.length > 0 ? undefined : shareOf(only);
      if (share === undefined) return read;
      const possible = checkShare(share, { isZeroPossible: false, isAllPossible: true }, fault);
      return possible === undefined ? undefined : { kind: 'share', share };
    },
    schema,
  );

/** An absolute amount in any unit. */
export const absoluteAmount = (example: string): Reader<DraftSum> =>
  fromNumericText(example, (text, fault) => sum(text, example, fault), schema);
