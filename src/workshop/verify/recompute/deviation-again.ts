import { toExact } from '../../../core/quantity/decimal.ts';
import { isMore, type Quantity } from '../../../core/quantity/quantity.ts';
import type { ScaleText } from '../../../core/run/event.ts';
import type { Deviation } from '../../../core/run/state.ts';
import { readInstant } from '../../../core/time/instant.ts';
import { adjustedTotal } from './amounts.ts';
import type { Entry, EntryOf } from './entry.ts';
import { type Replayed, stepNumbered, stepOfKind, weighingAt } from './replayed.ts';
import { totalOf } from './weighing.ts';

type Found = Pick<Deviation, 'what' | 'found' | 'least' | 'most'>;

/** Whole seconds between two instants of the record, rounded down; negative where the clock went back. */
export const secondsFrom = (from: string, to: string): bigint => {
  const [start, end] = [readInstant(from), readInstant(to)];
  if (start === undefined || end === undefined) throw new RangeError('not an instant');
  return BigInt(Math.floor((end.epochMs - start.epochMs) / 1000));
};

const exactly = (key: 'least' | 'most', value: Quantity<string> | undefined) =>
  value === undefined ? {} : { [key]: toExact(value) };

const ofReading = (
  replayed: Replayed,
  { step }: Entry & { readonly step: number },
): Omit<Found, 'what'> => {
  const weighing = weighingAt(replayed, step);
  const { low, high } = weighing.line;
  return { found: toExact(totalOf(weighing)), least: toExact(low), most: toExact(high) };
};

const ofMeasure = (replayed: Replayed, n: number): Omit<Found, 'what'> => {
  const { least, most } = stepOfKind(replayed, n, 'measure');
  const found = replayed.measured.get(n);
  return {
    ...(found === undefined ? {} : { found }),
    ...exactly('least', least),
    ...exactly('most', most),
  };
};

const ofDeadline = (replayed: Replayed, { step, at }: EntryOf<'accepted'>): Omit<Found, 'what'> => {
  const { within } = stepNumbered(replayed, step).step;
  const from = replayed.plan.steps.find(each => each.step.name === within?.of);
  const since = from && replayed.doneAt.get(from.n);
  if (within === undefined || since === undefined)
    throw new RangeError(`step ${step} has no deadline`);
  return { found: `${secondsFrom(since, at)}`, most: `${within.seconds}` };
};

const ofAccepted = (replayed: Replayed, entry: EntryOf<'accepted'>): Found => {
  const { what } = entry;
  if (what === 'overdue') return { what, ...ofDeadline(replayed, entry) };
  if (what === 'out-of-limits') return { what, ...ofMeasure(replayed, entry.step) };
  return { what, ...ofReading(replayed, entry) };
};

const ofHold = (replayed: Replayed, { step, at, verdict }: EntryOf<'hold-ended'>): Found => {
  const { least, most } = stepOfKind(replayed, step, 'hold');
  const started = replayed.holdStarted.get(step) ?? at;
  return {
    what: verdict === 'early' ? 'hold-early' : 'hold-late',
    found: `${secondsFrom(started, at)}`,
    least: `${least}`,
    ...(most === undefined ? {} : { most: `${most}` }),
  };
};

const ofAdjust = (replayed: Replayed, step: number): Found | undefined => {
  const most = replayed.mosts.get(step);
  const total = adjustedTotal(replayed, step);
  return most !== undefined && isMore(total, most)
    ? { what: 'adjust-over', found: toExact(total), most: toExact(most) }
    : undefined;
};

const foundBy = (replayed: Replayed, entry: Entry): Found | undefined => {
  if (entry.type === 'accepted') return ofAccepted(replayed, entry);
  if (entry.type === 'unwitnessed') return { what: 'unwitnessed' };
  if (entry.type === 'adjust-finished') return ofAdjust(replayed, entry.step);
  return entry.type === 'hold-ended' && entry.verdict !== 'kept'
    ? ofHold(replayed, entry)
    : undefined;
};

const isUnchecked = ({ lastCheck }: ScaleText, { at, scaleCheck }: EntryOf<'begun'>): boolean => {
  if (lastCheck === undefined) return scaleCheck !== undefined;
  const isLate = scaleCheck !== undefined && secondsFrom(lastCheck.at, at) > scaleCheck.within;
  return isLate || lastCheck.verdict === 'beyond';
};

/** A batch that is no practice and was begun on a scale without a good check in time. */
const ofBegun = ({ plan }: Replayed, begun: EntryOf<'begun'>): Deviation | undefined => {
  const inUse = new Set(plan.text.additions.map(each => each.scale));
  const unchecked = begun.scales.some(scale => inUse.has(scale.name) && isUnchecked(scale, begun));
  if (begun.practice || !unchecked) return undefined;
  if (begun.scaleReason === undefined)
    throw new RangeError('a scale was not checked, and nobody said why');
  const { scaleReason: reason, at, by } = begun;
  return { step: 0, what: 'scale-unchecked', reason, at, by };
};

/** The deviation that an event stands for, if it is one. Throws a RangeError for one without a reason. */
export const deviationAgain = (replayed: Replayed, entry: Entry): Deviation | undefined => {
  if (entry.type === 'begun') return ofBegun(replayed, entry);
  const found = foundBy(replayed, entry);
  if (found === undefined || !('step' in entry) || entry.step === undefined) return undefined;
  const reason = 'reason' in entry ? entry.reason : undefined;
  if (reason === undefined || reason === '')
    throw new RangeError('a departure from the sheet has no reason');
  return { step: entry.step, ...found, reason, at: entry.at, by: entry.by };
};
