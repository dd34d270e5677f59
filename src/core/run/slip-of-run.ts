/** The last reading of an addition as the slips see it. */
import type { Scale } from '../plan/plan.ts';
import { add, type Mass, noMass, subtract } from '../quantity/quantity.ts';
import type { Situation, Slip } from '../slip/slip.ts';
import { likelySlip, mentionedSlips } from '../slip/slips.ts';
import type { Typed } from './event.ts';
import { additionInHand, vesselNow } from './focus.ts';
import { earlierPours, netOf, presentPour } from './judge.ts';
import { massFrom } from './mass-text.ts';
import { isReadInto } from './pours.ts';
import type { LastReading, RunFacts } from './state.ts';

const readingOf = ({ event }: RunFacts['events'][number]): Typed | undefined =>
  'reading' in event ? event.reading : undefined;

/** What the same scale showed at the reading before that one. */
const previousOn = (run: RunFacts, { seq, reading }: LastReading): Mass | undefined => {
  const before = run.events.findLast(
    each => each.seq < seq && readingOf(each)?.scale === reading.scale,
  );
  const typed = before && readingOf(before);
  return typed && massFrom(typed.mass);
};

// What stands on the scale beside the pour is known only for a line that is weighed in its vessel.
const onTheScale = (run: RunFacts, vesselName: string, poured: Mass) => {
  const vessel = run.vessels.get(vesselName);
  return vessel === undefined
    ? {}
    : { standing: vessel.tare, already: subtract(vessel.contents, poured) };
};

const situationAt = (run: RunFacts, n: number): Situation | undefined => {
  const found = additionInHand(run, n);
  const last = found?.state.lastReading;
  const scale: Scale | undefined = found?.addition.onScale?.scale;
  if (found === undefined || last === undefined || scale === undefined) return undefined;
  const { addition, state } = found;
  if (last.part === 'residue' || last.part === 'before') return undefined;
  const previous = previousOn(run, last);
  const totalIf = (shown: Mass): Mass =>
    add(
      earlierPours(state),
      netOf(run, addition, state, { way: last.way, part: last.part, shown }) ?? noMass,
    );
  return {
    reading: { ...last.reading, mass: massFrom(last.reading.mass) },
    scale,
    target: addition.exact,
    window: addition.window,
    // Whoever asks about a line that is under says by it that the pour is finished.
    isFinished: true,
    totalIf,
    ...(last.way === 'net' && addition.place === 'vessel'
      ? onTheScale(run, vesselNow(run, addition.vessel), presentPour(state).net)
      : {}),
    ...(previous === undefined ? {} : { previous }),
  };
};

const isAnswered = (run: RunFacts, n: number): boolean => {
  const state = additionInHand(run, n)?.state;
  if (state === undefined) return true;
  const last = state.lastReading;
  return (
    last === undefined ||
    state.slipAnswered === last.seq ||
    // The pour of that reading is over: what it might have been is not asked any more.
    (last.part !== 'before' && !isReadInto(presentPour(state), last.seq))
  );
};

/** The slip that the last reading most looks like, unless a person has answered for it already. */
export const slipOf = (run: RunFacts, n: number): Slip | undefined => {
  const situation = isAnswered(run, n) ? undefined : situationAt(run, n);
  return situation && likelySlip(situation);
};

/** Slips that would explain the reading too, only to be mentioned. */
export const mentionedSlipsOf = (run: RunFacts, n: number): readonly Slip[] => {
  const situation = situationAt(run, n);
  return situation === undefined ? [] : mentionedSlips(situation);
};
