import type { Stamped } from '../run/event.ts';
import type { RunFacts } from '../run/state.ts';
import { dateAfter, formatDate, localDate, readInstant } from '../time/instant.ts';

// Putting a number right, or lifting some out, adds nothing.
const putsIn = ({ event }: Stamped): boolean =>
  event.type === 'adjusted' || (event.type === 'reading-taken' && event.judged !== undefined);

/** The local date of the last addition plus the sheet's `use within`; undefined without either. */
export const bestBeforeOf = ({ sheet, events }: RunFacts): string | undefined => {
  const last = events.findLast(putsIn);
  const instant = last === undefined ? undefined : readInstant(last.at);
  return instant === undefined || sheet.useWithin === undefined
    ? undefined
    : formatDate(dateAfter(localDate(instant), sheet.useWithin));
};
