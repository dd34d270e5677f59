/** Counts and piece weights a second time. */
import { toExact } from '../../../core/quantity/decimal.ts';
import type { EntryOf } from './entry.ts';
import { readingAgain } from './reading-again.ts';
import { type Expected, type Replayed, stepOfKind } from './replayed.ts';

const isNone = (typed: string): boolean => /^(?:none|no)$/i.test(typed.trim());

const countAgain = ({ item, typed }: EntryOf<'tallied'>): Expected => {
  const [, digits, why] = /^(\d{1,6})(?:\s+(.+))?$/s.exec(isNone(typed) ? '0' : typed.trim()) ?? [];
  if (digits === undefined) throw new RangeError('the typed text is not a number of pieces');
  const value = String(Number(digits));
  return item === 'rejected' && value !== '0'
    ? { value, reason: why?.trim() }
    : { value, reason: undefined };
};

// A tally does not say on which scale a mass was read: what any of them could have shown is right.
const massesAgain = ({ scales }: Replayed, typed: string): readonly string[] =>
  scales
    .map(scale => readingAgain({ typed, unit: '', mass: '', scale: scale.name }, scales))
    .filter(reading => reading !== undefined)
    .map(reading => toExact(reading.mass));

/** What one entry of the tally comes to. */
export const tallyAgain = (replayed: Replayed, entry: EntryOf<'tallied'>): Expected => {
  const { step, item, typed, value } = entry;
  stepOfKind(replayed, step, 'tally');
  if (item === 'good' || item === 'rejected' || item === 'samples') return countAgain(entry);
  const [first, ...others] = massesAgain(replayed, isNone(typed) ? '0' : typed);
  if (first === undefined) throw new RangeError('the typed text is not a mass');
  return { value: others.includes(value) ? value : first, reason: undefined };
};

/** Whether every item of a tally was answered, and as many pieces weighed as the sheet asks for. */
export const isTallyWhole = (replayed: Replayed, step: number): boolean => {
  const entries = replayed.tallied.filter(each => each.step === step);
  const weights = entries.filter(each => each.item === 'weight').length;
  return (
    (['good', 'samples', 'left over', 'crumbs'] as const).every(item =>
      entries.some(each => each.item === item),
    ) &&
    entries.some(each => each.item === 'rejected' && each.value === '0') &&
    weights >= stepOfKind(replayed, step, 'tally').weigh
  );
};
