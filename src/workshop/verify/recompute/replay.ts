/**
 * The batch a second time, from its events: what each reading, amount and hold comes to, against what
 * its event says. Shares nothing with core/run but the names.
 */
import { toExact } from '../../../core/quantity/decimal.ts';
import type { Sheet } from '../../../core/sheet/sheet.ts';
import { adjustedTotal } from './amounts.ts';
import { deviationAgain } from './deviation-again.ts';
import { type Difference, differencesBetween } from './difference.ts';
import type { Entry } from './entry.ts';
import type { PlanAgain } from './plan-again.ts';
import { ofAmended } from './replay-amended.ts';
import { checkTold, noteRemedy, ofChosen, ofLeft, ofOffered, ofSlip } from './replay-remedy.ts';
import { ofAdjusted, ofHoldEnded, ofMeasured, ofTicked } from './replay-steps.ts';
import {
  ofAccepted,
  ofLot,
  ofReading,
  ofTakenBack,
  ofTared,
  ofVessel,
  ofWitness,
} from './replay-weighing.ts';
import { type Expected, emptyReplay, type Replayed, stepNumbered } from './replayed.ts';
import { isTallyWhole, tallyAgain } from './tally-again.ts';

const expectedOf = (replayed: Replayed, entry: Entry): Expected => {
  switch (entry.type) {
    case 'vessel-weighed':
      return ofVessel(replayed, entry);
    case 'lot-identified':
      return ofLot(replayed, entry);
    case 'tared':
      return ofTared(replayed, entry);
    case 'reading-taken':
      return ofReading(replayed, entry);
    case 'taken-back':
      return ofTakenBack(replayed, entry);
    case 'amended':
      return ofAmended(replayed, entry);
    case 'accepted':
      return ofAccepted(replayed, entry);
    case 'unwitnessed':
    case 'witnessed':
      return ofWitness(replayed, entry);
    case 'remedies-offered':
      return ofOffered(replayed, entry);
    case 'remedy-chosen':
      return ofChosen(replayed, entry);
    case 'remedy-left':
      return ofLeft(replayed, entry);
    case 'slip-answered':
      return ofSlip(replayed, entry);
    case 'ticked':
      return ofTicked(replayed, entry);
    case 'hold-started':
      replayed.holdStarted.set(entry.step, entry.at);
      return {};
    case 'hold-ended':
      return ofHoldEnded(replayed, entry);
    case 'measured':
      return ofMeasured(replayed, entry);
    case 'adjusted':
      return ofAdjusted(replayed, entry);
    case 'adjust-finished':
      return { total: toExact(adjustedTotal(replayed, entry.step)) };
    case 'tallied':
      replayed.tallied.push(entry);
      return tallyAgain(replayed, entry);
    case 'closed':
      return checkTold(replayed, entry);
    default:
      return {};
  }
};

/** Whether nothing is left to do at a step that is no addition. */
const finishes = (replayed: Replayed, entry: Entry): boolean => {
  switch (entry.type) {
    case 'ticked':
    case 'hold-ended':
    case 'adjust-finished':
      return true;
    case 'measured':
      return entry.verdict === 'in';
    case 'accepted':
      return entry.what === 'out-of-limits';
    case 'tallied':
      return isTallyWhole(replayed, entry.step);
    default:
      return false;
  }
};

const noteStep = (replayed: Replayed, entry: Entry): void => {
  if (!('step' in entry) || entry.step === undefined) return;
  stepNumbered(replayed, entry.step);
  if (finishes(replayed, entry)) replayed.doneAt.set(entry.step, entry.at);
};

const putsIn = (entry: Entry): boolean =>
  entry.type === 'adjusted' || (entry.type === 'reading-taken' && entry.judged !== undefined);

const follow = (replayed: Replayed, entry: Entry, path: string): readonly Difference[] => {
  replayed.people.add(entry.by);
  const deviation = deviationAgain(replayed, entry);
  if (deviation !== undefined) replayed.deviations.push(deviation);
  const expected = expectedOf(replayed, entry);
  noteStep(replayed, entry);
  noteRemedy(replayed, entry);
  if (putsIn(entry)) replayed.lastAddition = entry;
  const recorded = new Map(Object.entries(entry));
  return Object.entries(expected).flatMap(([key, value]) =>
    differencesBetween(`${path}.${key}`, recorded.get(key), value),
  );
};

const checkDone = ({ plan, doneAt }: Replayed): void => {
  for (const { n } of plan.steps) {
    if (!doneAt.has(n))
      throw new RangeError(`step ${n} was neither finished nor accepted with a reason`);
  }
};

export interface Replay {
  readonly replayed: Replayed;
  readonly differences: readonly Difference[];
}

const named = (seq: number, error: unknown): RangeError =>
  new RangeError(`event ${seq}: ${error instanceof Error ? error.message : 'it cannot follow'}`);

/**
 * Follows the events of a closed batch. Throws a RangeError, with the number of the event, for one
 * that cannot follow what was before it.
 */
export const replay = (sheet: Sheet, plan: PlanAgain, entries: readonly Entry[]): Replay => {
  const replayed = emptyReplay(sheet, plan);
  const differences: Difference[] = [];
  for (const [index, entry] of entries.entries()) {
    try {
      differences.push(...follow(replayed, entry, `events[${index}]`));
      if (entry.type === 'closed' && entry.outcome === 'made') checkDone(replayed);
    } catch (error) {
      throw named(entry.seq, error);
    }
  }
  return { replayed, differences };
};
