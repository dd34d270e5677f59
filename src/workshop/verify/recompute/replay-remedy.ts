/** What could be done about an over-pour, and what was done, event by event. */
import { isPositive, type Ratio, times } from '../../../core/quantity/quantity.ts';
import type { LineMassText, RemedyText } from '../../../core/run/remedy-event.ts';
import type { SlipKind } from '../../../core/slip/slip.ts';
import { chooseAgain } from './choose-again.ts';
import type { Entry, EntryOf } from './entry.ts';
import { numberFrom } from './exact-text.ts';
import { remediesAgain } from './remedy/remedies-again.ts';
import { closedSteps, standingOf } from './remedy/standing-of.ts';
import { finishLine } from './replay-weighing.ts';
import { type Expected, partWindows, type Replayed, scaleAt, weighingAt } from './replayed.ts';
import { newPour, totalOf, verdictOf, type Weighing, type Window } from './weighing.ts';
import { windowAgain } from './window-again.ts';

export const ofOffered = (replayed: Replayed, { step }: EntryOf<'remedies-offered'>): Expected => {
  const { verdict, isAccepted } = weighingAt(replayed, step);
  if (verdict !== 'over' || isAccepted) throw new RangeError('no line there is over its window');
  replayed.offered = { step, remedies: remediesAgain(standingOf(replayed)) };
  return { remedies: replayed.offered.remedies };
};

// Several weighings are planned anew, unless something is in already: then they are as many as it takes.
const partsOf = (replayed: Replayed, weighing: Weighing): readonly Window[] => {
  const { line } = weighing;
  return isPositive(totalOf(weighing))
    ? []
    : partWindows(chooseAgain(line, [scaleAt(replayed, line.step)]));
};

const stretched = (replayed: Replayed, weighing: Weighing, stretch: Ratio): Weighing => {
  const exact = times(weighing.line.exact, stretch);
  const line = { ...weighing.line, exact, ...windowAgain(weighing.line.tolerance, exact) };
  const bigger = { ...weighing, line };
  return { ...bigger, parts: partsOf(replayed, bigger) };
};

/** Poured to the old size: what is missing to the new one is another pour, of a lot to be named. */
const reopened = (weighing: Weighing): Weighing => ({
  ...newPour(weighing, undefined),
  verdict: 'under',
  seq: 0,
  isAccepted: false,
  isSettled: false,
});

const resize = (
  replayed: Replayed,
  { stretch, topUps = [], pieces = 0 }: RemedyText,
  at: string,
): void => {
  const factor = numberFrom(stretch ?? '1');
  const closed = closedSteps(replayed);
  const toppedUp = new Set(topUps.map(({ n }: LineMassText) => n));
  for (const [step, before] of replayed.weighings) {
    if (closed.has(step)) continue;
    const weighing = stretched(replayed, before, factor);
    const { line, isAccepted, verdict } = weighing;
    if (toppedUp.has(line.n)) {
      replayed.weighings.set(step, reopened(weighing));
      replayed.doneAt.delete(step);
    } else if (isAccepted || verdict === undefined) {
      replayed.weighings.set(step, weighing);
    } else {
      const now = verdictOf(totalOf(weighing), line);
      replayed.weighings.set(step, { ...weighing, verdict: now });
      if (verdict === 'over' && now === 'in') finishLine(replayed, step, at);
    }
  }
  replayed.mosts = new Map(
    [...replayed.mosts].map(([n, most]) => [
      n,
      replayed.doneAt.has(n) ? most : times(most, factor),
    ]),
  );
  replayed.pieces = pieces;
};

export const ofChosen = (
  replayed: Replayed,
  { step, kind, reason, at }: EntryOf<'remedy-chosen'>,
): Expected => {
  const offered = replayed.offered;
  if (offered?.step !== step)
    throw new RangeError('a remedy was chosen before it was said what could be done');
  const remedy = offered.remedies.find(each => each.kind === kind);
  if (remedy?.possible !== true)
    throw new RangeError('the remedy that was chosen was not possible');
  if (reason.trim() === '') throw new RangeError('the choice of a remedy has no reason');
  const { weighings, doneAt, lots, mosts, pieces } = replayed;
  replayed.remedy = {
    step,
    before: {
      weighings: new Map(weighings),
      doneAt: new Map(doneAt),
      lots: new Map(lots),
      mosts,
      pieces,
    },
  };
  resize(replayed, remedy, at);
  const { stretch, topUps, targets, batchMass } = remedy;
  return { stretch, topUps, targets, batchMass, pieces: remedy.pieces };
};

export const ofLeft = (replayed: Replayed, _entry: EntryOf<'remedy-left'>): Expected => {
  const { remedy } = replayed;
  if (remedy === undefined) throw new RangeError('there was no remedy that could be left');
  Object.assign(replayed, remedy.before);
  replayed.remedy = undefined;
  return { step: remedy.step };
};

const slips: ReadonlySet<string> = new Set<SlipKind>([
  'last-again',
  'not-zeroed',
  'not-tared',
  'ounces-grams',
  'kilograms-grams',
  'point-off',
  'digits-swapped',
]);

/**
 * A slip is a guess that a person answers, and nothing is worked out from it: looked at is only that the
 * question can have been asked there, of the last reading and once, and which slip it named.
 */
export const ofSlip = (replayed: Replayed, { step, slip }: EntryOf<'slip-answered'>): Expected => {
  const weighing = weighingAt(replayed, step);
  const { seq, part, verdict, answered } = weighing;
  const isOut = verdict === 'over' || verdict === 'under';
  if (seq === 0 || seq === answered || !isOut || part === 'residue' || part === 'before')
    throw new RangeError('there was no reading to ask about');
  if (!slips.has(slip)) throw new RangeError('there is no such slip');
  replayed.weighings.set(step, { ...weighing, answered: seq });
  if (verdict === 'over') replayed.overInHand = step;
  return { about: seq };
};

// Once something was poured for it or done since, a remedy is a fact.
const leavesOpen: ReadonlySet<Entry['type']> = new Set<Entry['type']>([
  'lot-identified',
  'remedies-offered',
  'remedy-chosen',
  'vessel-weighed',
  'put-later',
  'turned-to',
  'noted',
  'paused',
  'resumed',
  'handed-over',
]);

/**
 * A batch that is closed with too much in the line in hand was told what could be done. Which line is in
 * hand is only known when a slip was just answered for: at other times the question may have been another.
 */
export const checkTold = (
  { overInHand, offered }: Replayed,
  { outcome }: EntryOf<'closed'>,
): Expected => {
  if (outcome === 'rejected' && overInHand !== undefined && offered?.step !== overInHand)
    throw new RangeError('the batch was scrapped before it was said what could be done');
  return { outcome };
};

const changesNothing: ReadonlySet<Entry['type']> = new Set<Entry['type']>([
  'slip-answered',
  'remedies-offered',
  'noted',
  'handed-over',
]);

/** Forgets what the entry has made untrue: an offer stands for the next event alone. */
export const noteRemedy = (replayed: Replayed, { type }: Entry): void => {
  if (type !== 'remedies-offered') replayed.offered = undefined;
  if (!changesNothing.has(type)) replayed.overInHand = undefined;
  if (!leavesOpen.has(type)) replayed.remedy = undefined;
};
