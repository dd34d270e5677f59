import { toExact } from '../quantity/decimal.ts';
import { isNegative } from '../quantity/quantity.ts';
import { readReading } from '../quantity/reading.ts';
import { type Decision, follow, readReason, refuse } from './decision.ts';
import type { TallyItem } from './event.ts';
import type { Intent } from './intent.ts';
import type { OpenRun } from './state.ts';

type TallyIntent = Intent & { readonly type: 'tally' };

/** Whether pieces are counted; else it is a mass. */
export const isCount = (item: TallyItem): boolean =>
  item === 'good' || item === 'rejected' || item === 'samples';

// "none" is what one says; a zero is what stands in the record.
const zeroFor = (typed: string): string => (/^(none|no)$/i.test(typed.trim()) ? '0' : typed.trim());

/** Nothing can be counted that much beyond the plan, whatever the moulds gave: a digit too many. */
const isFarOff = (run: OpenRun, count: number): boolean => count > 2 * run.plan.size.pieces;

const readCount = (run: OpenRun, { step, item, typed, confirmed }: TallyIntent): Decision => {
  const match = /^(\d{1,6})(?:\s+(.+))?$/.exec(zeroFor(typed));
  if (match === null) {
    return refuse(
      'bad-count',
      'That is not a number of pieces.',
      item === 'rejected'
        ? 'Type the number and why: 2 cracked. Type 0 when there are no more.'
        : 'Type a whole number, for example 34.',
    );
  }
  const value = String(Number(match[1]));
  if (isFarOff(run, Number(value)) && confirmed !== true) {
    return refuse(
      'count-far-off',
      `That is more than twice the ${run.plan.size.pieces} planned.`,
      'Look at the number again.',
    );
  }
  const why = match[2];
  if (item !== 'rejected' || value === '0') {
    return why === undefined
      ? follow({ type: 'tallied', step, item, typed: typed.trim(), value })
      : refuse(
          'bad-count',
          'Only the number belongs here.',
          'Type a whole number, for example 34.',
        );
  }
  const reason = readReason(why);
  return reason === undefined
    ? refuse(
        'reason-missing',
        'Rejected pieces need a reason.',
        'Type the number and why: 2 cracked.',
      )
    : follow({ type: 'tallied', step, item, typed: typed.trim(), value, reason });
};

/** Scales that show different units leave open what a bare number means. */
const isUnitOpen = (run: OpenRun, typed: string): boolean =>
  !/\p{L}/u.test(zeroFor(typed)) &&
  /[1-9]/.test(typed) &&
  new Set(run.plan.scales.map(scale => scale.unit)).size > 1;

const readWeight = (run: OpenRun, { step, item, typed }: TallyIntent): Decision => {
  if (isUnitOpen(run, typed)) {
    return refuse(
      'wrong-unit',
      'The scales show different units.',
      'Type the unit too, for example 95.2 g.',
    );
  }
  const readings = run.plan.scales.map(scale => readReading(zeroFor(typed), scale));
  const reading = readings.find(each => each.ok) ?? readings[0];
  if (reading === undefined || !reading.ok) {
    return refuse(
      reading?.code ?? 'bad-reading',
      reading?.message ?? 'There is no scale.',
      reading?.instead ?? 'Enter a scale.',
    );
  }
  if (isNegative(reading.mass))
    return refuse('negative-net', 'A mass cannot be below zero.', 'Type what the scale shows.');
  if (item === 'weight' && reading.mass.num === 0n)
    return refuse('bad-reading', 'A piece weighs something.', 'Type what the scale shows.');
  return follow({ type: 'tallied', step, item, typed: typed.trim(), value: toExact(reading.mass) });
};

/** Reads one entry of a tally: whole pieces, or a mass on any of the workshop's scales. */
export const readTally = (run: OpenRun, intent: TallyIntent): Decision =>
  isCount(intent.item) ? readCount(run, intent) : readWeight(run, intent);
