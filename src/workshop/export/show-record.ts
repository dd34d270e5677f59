/** What a record says, as people read it on the page. */
import { placesOf, toExact } from '../../core/quantity/decimal.ts';
import { type Ratio, ratio, times } from '../../core/quantity/quantity.ts';
import { showGrams } from '../../core/quantity/show.ts';
import type { Addendum } from '../../core/result/addendum.ts';
import type { BatchRecord } from '../../core/result/record.ts';
import { massFrom } from '../../core/run/mass-text.ts';
import type { Sheet } from '../../core/sheet/sheet.ts';
import { formatClock, formatDate, localDate, readInstant } from '../../core/time/instant.ts';
import type { BatchState } from '../verify/check-state.ts';
import type { SignatureHeader } from '../verify/formats.ts';
import type { Entry } from '../verify/recompute/entry.ts';

/** A record with its sheet and events read. */
export interface RecordView {
  readonly record: BatchRecord;
  readonly sheet: Sheet;
  readonly entries: readonly Entry[];
}

/** The last line of the ledger when a page was made. */
export interface LedgerHead {
  readonly seq: number;
  readonly hash: string;
}

/** What stands beside a record. */
export interface More {
  readonly signatures: readonly SignatureHeader[];
  readonly addenda: readonly Addendum[];
  readonly state: BatchState;
  /** Undefined where the ledger is empty. */
  readonly head: LedgerHead | undefined;
}

/** Exact grams where four decimals are enough for them, else rounded to four, ties to even; never fewer than `places`. */
export const showMass = (exact: string, places = 0): string => {
  const mass = massFrom(exact);
  const needed = exact.includes('/') ? 4 : Math.min(placesOf(mass), 4);
  return showGrams(mass, Math.max(needed, places));
};

/** How many decimals of a gram a scale of the record shows. */
export const placesOn = ({ record }: RecordView, scale: string): number => {
  const found = record.plan.scales.find(each => each.name === scale);
  return found === undefined ? 0 : Math.min(placesOf(massFrom(found.readability)), 4);
};

/** `2027-03-04 09:12`, as the clocks showed there. */
export const showInstant = (text: string): string => {
  const instant = readInstant(text);
  return instant === undefined ? text : `${formatDate(localDate(instant))} ${formatClock(instant)}`;
};

/** A share in per cent, exactly as the sheet means it. */
export const showPercent = (share: Ratio): string => `${toExact(times(share, ratio(100n)))} %`;

export const nameOf = ({ sheet }: RecordView, material: string): string =>
  sheet.materials.get(material)?.name ?? material;
