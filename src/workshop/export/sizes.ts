/** Targets and windows of the additions as they were at each event: a stretch of the batch changes them. */
import { onScale, toleranceOf, windowOf } from '../../core/plan/window.ts';
import { readNumber, toExact } from '../../core/quantity/decimal.ts';
import { add, one, times } from '../../core/quantity/quantity.ts';
import type { AdditionText } from '../../core/result/record.ts';
import { massFrom } from '../../core/run/mass-text.ts';
import { readScaleText } from '../../core/run/size-text.ts';
import type { EntryOf } from '../verify/recompute/entry.ts';
import { numberedSteps } from '../verify/recompute/plan-again.ts';
import { placesIn } from '../verify/recompute/remedy/places.ts';
import type { RecordView } from './show-record.ts';
import { stepsOf } from './step-title.ts';

/** By the number of the addition's step. */
export type Additions = ReadonlyMap<number, AdditionText>;

/** From that event on. */
interface Since {
  readonly seq: number;
  readonly additions: Additions;
}

const firstOf = ({ record }: RecordView): Since => ({
  seq: 0,
  additions: new Map(record.plan.additions.map(each => [each.step, each])),
});

/** What was in of each step before an event. */
export const totalsBefore = ({ entries }: RecordView, seq: number): ReadonlyMap<number, string> =>
  new Map(
    entries.flatMap(entry =>
      entry.seq < seq && 'judged' in entry && entry.judged !== undefined
        ? [[entry.step, entry.judged.total]]
        : [],
    ),
  );

const isClosedBefore = (
  { sheet, entries }: RecordView,
  seq: number,
): ((addition: AdditionText) => boolean) => {
  const ticked = new Set(
    entries.flatMap(each => (each.type === 'ticked' && each.seq < seq ? [each.step] : [])),
  );
  const places = placesIn(numberedSteps(sheet), n => ticked.has(n));
  return ({ step, phase }) => {
    const vessel = sheet.phases.find(each => each.name === phase)?.vessel.name ?? '';
    return places.at(step, vessel).isClosed;
  };
};

const stretched = (
  view: RecordView,
  addition: AdditionText,
  entry: EntryOf<'remedy-chosen'>,
): AdditionText => {
  const { step } = stepsOf(view)[addition.step - 1] ?? {};
  const scale = view.record.plan.scales.find(each => each.name === addition.scale);
  if (step?.kind !== 'add' || scale === undefined) return addition;
  const exact = times(massFrom(addition.exact), readNumber(entry.stretch) ?? one);
  const window = windowOf(toleranceOf(view.sheet, step), exact);
  const { target, low, high } = onScale(exact, window, readScaleText(scale));
  const inNow = massFrom(totalsBefore(view, entry.seq).get(addition.step) ?? '0');
  const topUp = entry.topUps.find(each => each.n === addition.n);
  const wanted = topUp
    ? toExact(add(inNow, massFrom(topUp.mass)))
    : entry.targets.find(each => each.n === addition.n)?.mass;
  // At another size its parts would be others.
  const { parts: _parts, ...rest } = addition;
  return {
    ...rest,
    exact: toExact(exact),
    windowLow: toExact(window.low),
    windowHigh: toExact(window.high),
    target: wanted ?? toExact(target ?? exact),
    low: toExact(low ?? window.low),
    high: toExact(high ?? window.high),
  };
};

const stretchedAll = (
  view: RecordView,
  before: Additions,
  entry: EntryOf<'remedy-chosen'>,
): Additions => {
  const isClosed = isClosedBefore(view, entry.seq);
  return new Map(
    [...before].map(([step, addition]) => [
      step,
      isClosed(addition) ? addition : stretched(view, addition, entry),
    ]),
  );
};

/** Every size that the batch had, in order; the first is as planned. */
const sizesOf = (view: RecordView): readonly Since[] => {
  const sizes: Since[] = [firstOf(view)];
  for (const entry of view.entries) {
    const { seq } = entry;
    const present = sizes.at(-1) ?? firstOf(view);
    if (entry.type === 'remedy-chosen') {
      sizes.push({ seq, additions: stretchedAll(view, present.additions, entry) });
    } else if (entry.type === 'remedy-left') {
      // Nothing was poured since: the size before the present one is back.
      sizes.push({ seq, additions: (sizes.at(-2) ?? present).additions });
    }
  }
  return sizes;
};

/** The additions as they were after an event; the event of a stretch is the first of its new size. */
export const additionsAt = (view: RecordView): ((seq: number) => Additions) => {
  const sizes = sizesOf(view);
  return seq => (sizes.findLast(each => each.seq <= seq) ?? firstOf(view)).additions;
};
