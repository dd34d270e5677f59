/** What a record says, as people read it on the page. */
import { placesOf, readNumber, toDecimal } from '../../core/quantity/decimal.ts';
import { grams, type Mass, ratio, times } from '../../core/quantity/quantity.ts';
import { showGrams } from '../../core/quantity/show.ts';
import type { BatchRecord } from '../../core/result/record.ts';
import type { Sheet } from '../../core/sheet/sheet.ts';
import { formatClock, formatDate, localDate, readInstant } from '../../core/time/instant.ts';
import type { Entry } from '../verify/recompute/entry.ts';

/** A record with its sheet and events read. */
export interface RecordView {
  readonly record: BatchRecord;
  readonly sheet: Sheet;
  readonly entries: readonly Entry[];
}

export const massFrom = (exact: string): Mass => {
  const value = readNumber(exact);
  if (value === undefined) throw new RangeError(`not a mass: ${exact}`);
  return grams(value);
};

/** Exact grams where four decimals are enough for them, else rounded to four, ties to even. */
export const showMass = (exact: string): string => {
  const mass = massFrom(exact);
  return showGrams(mass, exact.includes('/') ? 4 : Math.min(placesOf(mass), 4));
};

/** `2027-03-04 09:12`, as the clocks showed there. */
export const showInstant = (text: string): string => {
  const instant = readInstant(text);
  return instant === undefined ? text : `${formatDate(localDate(instant))} ${formatClock(instant)}`;
};

/** A limit of the sheet in per cent, with two decimals. */
export const showPercent = (share: { readonly num: bigint; readonly den: bigint }): string =>
  `${toDecimal(times(ratio(share.num, share.den), ratio(100n)), 2, 'half-even')} %`;

export const nameOf = ({ sheet }: RecordView, material: string): string =>
  sheet.materials.get(material)?.name ?? material;
