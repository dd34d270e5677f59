/**
 * Instants without a clock: a point in time with the offset that local clocks had there. The real
 * clock belongs to the command line; here time only arrives.
 */
export interface Instant {
  /** Milliseconds since 1970-01-01T00:00:00Z. */
  readonly epochMs: number;
  /** Minutes that local time was ahead of UTC. */
  readonly offset: number;
}

export interface CalendarDate {
  readonly year: number;
  /** 1 to 12. */
  readonly month: number;
  readonly day: number;
}

const dayMs = 86_400_000;

// Days since 1970-01-01 and back, in the proleptic Gregorian calendar (common practice, no source).
const daysOf = ({ year, month, day }: CalendarDate): number => {
  const y = month <= 2 ? year - 1 : year;
  const era = Math.floor(y / 400);
  const yearOfEra = y - era * 400;
  const dayOfYear = Math.floor((153 * ((month + 9) % 12) + 2) / 5) + day - 1;
  const dayOfEra =
    yearOfEra * 365 + Math.floor(yearOfEra / 4) - Math.floor(yearOfEra / 100) + dayOfYear;
  return era * 146_097 + dayOfEra - 719_468;
};

const dateOf = (days: number): CalendarDate => {
  const z = days + 719_468;
  const era = Math.floor(z / 146_097);
  const dayOfEra = z - era * 146_097;
  const yearOfEra = Math.floor(
    (dayOfEra -
      Math.floor(dayOfEra / 1460) +
      Math.floor(dayOfEra / 36_524) -
      Math.floor(dayOfEra / 146_096)) /
      365,
  );
  const dayOfYear =
    dayOfEra - (365 * yearOfEra + Math.floor(yearOfEra / 4) - Math.floor(yearOfEra / 100));
  const shifted = Math.floor((5 * dayOfYear + 2) / 153);
  const month = shifted < 10 ? shifted + 3 : shifted - 9;
  return {
    year: yearOfEra + era * 400 + (month <= 2 ? 1 : 0),
    month,
    day: dayOfYear - Math.floor((153 * shifted + 2) / 5) + 1,
  };
};

const pad = (value: number, width = 2): string => String(value).padStart(width, '0');

export const formatDate = ({ year, month, day }: CalendarDate): string =>
  `${pad(year, 4)}-${pad(month)}-${pad(day)}`;

/** The date on a local calendar at that instant. */
export const localDate = ({ epochMs, offset }: Instant): CalendarDate =>
  dateOf(Math.floor((epochMs + offset * 60_000) / dayMs));

const clockOf = ({ epochMs, offset }: Instant): string => {
  const ms = (((epochMs + offset * 60_000) % dayMs) + dayMs) % dayMs;
  return `${pad(Math.floor(ms / 3_600_000))}:${pad(Math.floor(ms / 60_000) % 60)}:${pad(Math.floor(ms / 1000) % 60)}.${pad(ms % 1000, 3)}`;
};

/** ISO 8601 with milliseconds and offset: `2027-03-04T09:12:33.120+01:00`. */
export const formatInstant = (instant: Instant): string => {
  const { offset } = instant;
  const minutes = Math.abs(offset);
  const zone = `${offset < 0 ? '-' : '+'}${pad(Math.floor(minutes / 60))}:${pad(minutes % 60)}`;
  return `${formatDate(localDate(instant))}T${clockOf(instant)}${zone}`;
};

/** Local hours and minutes, `09:12`. */
export const formatClock = (instant: Instant): string => clockOf(instant).slice(0, 5);

/** Reads what `formatInstant` writes; undefined for anything else, a 30 February included. */
export const readInstant = (text: string): Instant | undefined => {
  const match = /^(\d{4})-(\d\d)-(\d\d)T(\d\d):(\d\d):(\d\d)\.(\d{3})([+-])(\d\d):(\d\d)$/.exec(
    text,
  );
  if (match === null) return undefined;
  const [year = 0, month = 0, day = 0, hour = 0, minute = 0, second = 0, ms = 0] = match
    .slice(1, 8)
    .map(Number);
  const offset = (match[8] === '-' ? -1 : 1) * (Number(match[9]) * 60 + Number(match[10]));
  const epochMs =
    daysOf({ year, month, day }) * dayMs +
    ((hour * 60 + minute - offset) * 60 + second) * 1000 +
    ms;
  const instant = { epochMs, offset };
  return formatInstant(instant) === text ? instant : undefined;
};

const lengthOfMonth = (year: number, month: number): number =>
  daysOf({ year: month === 12 ? year + 1 : year, month: (month % 12) + 1, day: 1 }) -
  daysOf({ year, month, day: 1 });

/** A date so many days, weeks or months later; 31 January and one month is the end of February. */
export const dateAfter = (
  start: CalendarDate,
  period: { readonly count: number; readonly unit: 'day' | 'week' | 'month' },
): CalendarDate => {
  if (period.unit !== 'month') {
    return dateOf(daysOf(start) + period.count * (period.unit === 'week' ? 7 : 1));
  }
  const months = start.year * 12 + start.month - 1 + period.count;
  const year = Math.floor(months / 12);
  const month = (months % 12) + 1;
  return { year, month, day: Math.min(start.day, lengthOfMonth(year, month)) };
};

/** Whole seconds from one instant to a later one, rounded down; negative where the clock went backwards. */
export const secondsBetween = (from: Instant, to: Instant): number =>
  Math.floor((to.epochMs - from.epochMs) / 1000);
