/** A reading that was put right: what it changes, wherever what it measured is now. */
import { add } from '../../../core/quantity/quantity.ts';
import type { EntryOf } from './entry.ts';
import { closedSteps } from './remedy/standing-of.ts';
import { finishLine, isResidueDue, readingText } from './replay-weighing.ts';
import { type Expected, type Replayed, weighingAt } from './replayed.ts';
import { amendedBy, judgedAmended } from './weighing.ts';

export const ofAmended = (replayed: Replayed, entry: EntryOf<'amended'>): Expected => {
  const { step, seq, amends, at } = entry;
  const { mass: shown, text } = readingText(entry.reading, replayed.scales);
  const { weighing, pour, changed } = amendedBy(weighingAt(replayed, step), { amends, shown, seq });
  const expected = { reading: text, judged: judgedAmended(weighing, pour) };
  if (pour === undefined) {
    if (replayed.doneAt.has(step)) throw new RangeError('nothing was poured from that container');
    replayed.weighings.set(step, weighing);
    return expected;
  }
  const vessel = replayed.vessels.get(pour.where ?? '');
  if (pour.where !== undefined && vessel !== undefined) {
    const contents = add(vessel.contents, changed);
    replayed.vessels.set(pour.where, { ...vessel, contents });
  }
  const wasDone = replayed.doneAt.has(step);
  const isIn = weighing.verdict === 'in';
  // A line that was done is open again, but for a reason only where its vessel was emptied.
  const isReopened = wasDone && !isIn;
  const isGone = isReopened && closedSteps(replayed).has(step);
  const after = { ...weighing, isAccepted: false, isSettled: wasDone && isIn, isGone };
  replayed.weighings.set(step, after);
  if (isReopened) replayed.doneAt.delete(step);
  if (!wasDone && isIn && !isResidueDue(replayed, after)) finishLine(replayed, step, at);
  return expected;
};
