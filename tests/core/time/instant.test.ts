import * as fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  type CalendarDate,
  dateAfter,
  formatClock,
  formatDate,
  formatInstant,
  localDate,
  readInstant,
  secondsBetween,
} from '../../../src/core/time/instant.ts';
import { cases, seed } from '../../helpers/cases.ts';

const runs = { numRuns: cases(1000), seed };
// 1583 to 9999, whole days of Node's own calendar.
const anyDay = fc.integer({ min: -141_000, max: 2_900_000 });
const anyMs = fc.integer({ min: -141_000 * 86_400_000, max: 2_900_000 * 86_400_000 });
const anyOffset = fc.integer({ min: -14 * 60, max: 14 * 60 });

const dayOf = (days: number): CalendarDate => {
  const date = new Date(days * 86_400_000);
  return { year: date.getUTCFullYear(), month: date.getUTCMonth() + 1, day: date.getUTCDate() };
};

const parse = (text: string): CalendarDate => {
  const [year = 0, month = 0, day = 0] = text.split('-').map(Number);
  return { year, month, day };
};

const at = (epochMs: number) => ({ epochMs, offset: 0 });

describe('an instant', () => {
  it('has the date that Node has', () => {
    fc.assert(
      fc.property(anyDay, anyOffset, (days, offset) => {
        const epochMs = days * 86_400_000 - offset * 60_000;
        expect(localDate({ epochMs, offset })).toEqual(dayOf(days));
      }),
      runs,
    );
  });

  it('is written as Node writes it, and read back', () => {
    fc.assert(
      fc.property(anyMs, anyOffset, (epochMs, offset) => {
        const text = formatInstant({ epochMs, offset });
        expect(Date.parse(text)).toBe(epochMs);
        expect(text.slice(0, 23)).toBe(
          new Date(epochMs + offset * 60_000).toISOString().slice(0, 23),
        );
        expect(readInstant(text)).toEqual({ epochMs, offset });
      }),
      runs,
    );
  });

  it('shows local hours and minutes', () => {
    expect(formatClock({ epochMs: Date.UTC(2027, 2, 4, 23, 12), offset: 60 })).toBe('00:12');
    expect(formatInstant({ epochMs: Date.UTC(2027, 2, 4, 8, 12, 33, 120), offset: -210 })).toBe(
      '2027-03-04T04:42:33.120-03:30',
    );
  });

  it.each([
    '2027-02-30T09:12:33.120+01:00',
    '2027-13-01T09:12:33.120+01:00',
    '2027-03-04T24:00:00.000+01:00',
    '2027-03-04T09:60:00.000+01:00',
    '2027-03-04T09:12:33+01:00',
    '2027-03-04T09:12:33.120Z',
    '2027-03-04T09:12:33.120-00:00',
    '2027-03-04T09:12:33.120+01:60',
    '2027-03-04 09:12:33.120+01:00',
    '',
  ])('refuses %j', text => {
    expect(readInstant(text)).toBeUndefined();
  });

  it('counts whole seconds, backwards too', () => {
    expect(secondsBetween(at(0), at(1999))).toBe(1);
    expect(secondsBetween(at(1000), at(0))).toBe(-1);
    expect(secondsBetween({ epochMs: 0, offset: 60 }, { epochMs: 0, offset: 0 })).toBe(0);
  });
});

describe('dateAfter', () => {
  // run.md: 31 January and one month is the end of February. The others follow the same rule.
  it.each([
    ['2027-01-31', 1, 'month', '2027-02-28'],
    ['2028-01-31', 1, 'month', '2028-02-29'],
    ['2027-08-31', 1, 'month', '2027-09-30'],
    ['2027-05-31', 9, 'month', '2028-02-29'],
    ['2027-12-31', 2, 'month', '2028-02-29'],
    ['2027-12-15', 1, 'month', '2028-01-15'],
    ['2027-02-28', 12, 'month', '2028-02-28'],
    ['2027-11-30', 0, 'month', '2027-11-30'],
    ['2027-02-28', 1, 'day', '2027-03-01'],
    ['2027-12-31', 1, 'week', '2028-01-07'],
  ] as const)('%s and %i %s is %s', (start, count, unit, expected) => {
    expect(formatDate(dateAfter(parse(start), { count, unit }))).toBe(expected);
  });

  it('adds days and weeks as Node does', () => {
    fc.assert(
      fc.property(anyDay, fc.integer({ min: 0, max: 4000 }), (days, count) => {
        expect(dateAfter(dayOf(days), { count, unit: 'day' })).toEqual(dayOf(days + count));
        expect(dateAfter(dayOf(days), { count, unit: 'week' })).toEqual(dayOf(days + 7 * count));
      }),
      runs,
    );
  });

  it('adds months as Node does, cut to the length of the month', () => {
    fc.assert(
      fc.property(anyDay, fc.integer({ min: 0, max: 400 }), (days, count) => {
        const { year, month, day } = dayOf(days);
        const last = new Date(Date.UTC(year, month + count, 0)).getUTCDate();
        const date = new Date(Date.UTC(year, month - 1 + count, Math.min(day, last)));
        expect(dateAfter({ year, month, day }, { count, unit: 'month' })).toEqual(
          dayOf(date.getTime() / 86_400_000),
        );
      }),
      runs,
    );
  });
});
