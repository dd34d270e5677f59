/** From a number on a display to the net mass of an addition, and its verdict. */
import type { Addition, Scale, WeighingPart } from '../plan/plan.ts';
import { verdictOf } from '../plan/window.ts';
import { toExact } from '../quantity/decimal.ts';
import {
  add,
  compare,
  dividedBy,
  grams,
  isLess,
  isMore,
  isPositive,
  type Mass,
  noMass,
  ratio,
  ratioOf,
  subtract,
  sum,
} from '../quantity/quantity.ts';
import type { Judged, Part, Way } from './event.ts';
import { vesselNow } from './focus.ts';
import { massFrom } from './mass-text.ts';
import { emptyPour, isPartDone } from './pours.ts';
import type { AdditionState, Pour, RunFacts } from './state.ts';

export const presentPour = (state: AdditionState): Pour =>
  state.pours.at(-1) ?? emptyPour(undefined);

export const earlierPours = (state: AdditionState): Mass =>
  sum(
    noMass,
    state.pours.slice(0, -1).map(pour => pour.net),
  );

/** What stood on the scale before the present pour: the vessel and all that was in it. */
const grossBefore = (run: RunFacts, addition: Addition, state: AdditionState): Mass => {
  const vessel = run.vessels.get(vesselNow(run, addition.vessel));
  if (vessel === undefined) return noMass;
  return subtract(add(vessel.tare, vessel.contents), presentPour(state).net);
};

/** Net of the present pour when the display shows `shown`; undefined for `before`, which weighs nothing in. */
export const netOf = (
  run: RunFacts,
  addition: Addition,
  state: AdditionState,
  { way, part, shown }: { readonly way: Way; readonly part: Part; readonly shown: Mass },
): Mass | undefined => {
  if (part === 'before') return undefined;
  if (part === 'residue') return subtract(massFrom(state.cup ?? '0'), shown);
  if (part === 'after') return subtract(massFrom(state.before?.mass ?? '0'), shown);
  return way === 'gross' ? subtract(shown, grossBefore(run, addition, state)) : shown;
};

/** The cup is weighed again after it was tipped where what sticks to it could matter: in a window narrower than ten divisions. */
export const isResidueDue = ({ window, onScale }: Addition): boolean =>
  onScale !== undefined &&
  compare(ratioOf(subtract(window.high, window.low), onScale.scale.readability), ratio(10n)) < 0;

/** Something of the present pour can be lifted out while it is still in the cup, or while nothing else went into the vessel or was done in it. */
export const canTakeBack = (run: RunFacts, addition: Addition, state: AdditionState): boolean =>
  isPositive(presentPour(state).net) &&
  (state.lastReading?.way === 'cup' ||
    run.vessels.get(vesselNow(run, addition.vessel))?.lastStep === addition.step);

/** The weighing in hand of an addition that is planned as several, from 1; undefined for any other. */
export const presentPart = (
  { parts }: Addition,
  state: Pick<AdditionState, 'partsDone' | 'partVerdict'>,
): { readonly n: number; readonly of: number; readonly part: WeighingPart } | undefined => {
  if (parts === undefined) return undefined;
  const n = Math.min(state.partsDone + (isPartDone(state) ? 2 : 1), parts.length);
  const part = parts[n - 1];
  return part && { n, of: parts.length, part };
};

/** Net of the weighing in hand: its earlier pours, from other lots, and the present one. */
export const partNet = ({ pours, partFrom }: AdditionState, net: Mass): Mass =>
  sum(
    net,
    pours.slice(partFrom, -1).map(pour => pour.net),
  );

/** The net of a pour judged: the whole addition by its window, and one of several weighings by its own. */
export const judge = (addition: Addition, state: AdditionState, net: Mass): Judged => {
  const total = add(earlierPours(state), net);
  const present = presentPart(addition, { partsDone: state.partsDone });
  return {
    net: toExact(net),
    total: toExact(total),
    ...(present === undefined ? {} : { part: verdictOf(partNet(state, net), present.part.window) }),
    verdict: verdictOf(total, addition.window),
  };
};

/** Whether a weighed tare is more than one per cent off the one that the sheet states. */
export const isTareFarOff = (tare: Mass, stated: Mass): boolean =>
  isMore(
    isLess(tare, stated) ? subtract(stated, tare) : subtract(tare, stated),
    dividedBy(stated, ratio(100n)),
  );

/** The scale on which a vessel is weighed empty: that of the first line weighed in it, else the one that carries most. */
export const scaleOfVessel = (run: RunFacts, vessel: string): Scale => {
  const line = run.plan.additions.find(each => each.vessel === vessel && each.place === 'vessel');
  const byCapacity = run.plan.scales.toSorted((a, b) => compare(a.capacity, b.capacity));
  const scale = line?.onScale?.scale ?? byCapacity.at(-1);
  return (
    scale ?? { name: 'scale', capacity: grams(ratio(0n)), readability: grams(ratio(1n)), unit: 'g' }
  );
};
