/** Intents that concern the batch as a whole. */

import { offeredInHand } from './decide-remedy.ts';
import {
  type Context,
  type Decision,
  follow,
  longestText,
  readReason,
  readText,
  reasonMissing,
  refuse,
} from './decision.ts';
import { isPhaseDone, phasesOf, stepInHand, workablePhases } from './focus.ts';
import type { IntentOf } from './intent.ts';
import type { OpenRun } from './state.ts';

/** A person's name as it may stand in a record: one line, some letters, at most 80 characters. */
export const readName = (text: string): string | undefined => {
  const name = text.trim().replace(/\s+/g, ' ');
  return /^\p{L}[\p{L}\p{M}\p{N} .'’-]{0,79}$/u.test(name) ? name : undefined;
};

const noSuchPhase = (workable: readonly string[], message: string): Decision =>
  refuse(
    'no-such-phase',
    message,
    workable.length === 0 ? 'All steps are done.' : `Turn to ${workable.join(' or ')}.`,
  );

export const turnTo = (run: OpenRun, { phase }: IntentOf<'turn-to'>): Decision => {
  const workable = workablePhases(run);
  const phases = phasesOf(run);
  const name = phase.trim();
  const found =
    phases.find(each => each.name === name) ??
    phases.find(each => each.name.toLowerCase() === name.toLowerCase());
  if (found === undefined) {
    return noSuchPhase(
      workable,
      name === '' ? 'No phase was named.' : `The sheet has no phase ${name.slice(0, 40)}.`,
    );
  }
  if (workable.includes(found.name)) return follow({ type: 'turned-to', phase: found.name });
  return noSuchPhase(
    workable,
    isPhaseDone(run, found.name)
      ? `${found.name} is done.`
      : `${found.name} comes after ${found.after.join(' and ')}.`,
  );
};

export const note = (run: OpenRun, intent: IntentOf<'note'>): Decision => {
  const text = readText(intent.text);
  if (text === undefined) {
    return refuse(
      'bad-note',
      `A note is one line of 1 to ${longestText} plain characters.`,
      'Type note and then its text.',
    );
  }
  const step = stepInHand(run)?.n;
  return follow({ type: 'noted', text, ...(step === undefined ? {} : { step }) });
};

export const handOver = (run: OpenRun, { to }: IntentOf<'hand-over'>): Decision => {
  const name = readName(to);
  if (name === undefined)
    return refuse('bad-name', 'That is not a name.', 'Type the name of the person who goes on.');
  return name === run.person
    ? refuse(
        'bad-name',
        `${name} has the batch in hand already.`,
        'Type the name of the person who goes on.',
      )
    : follow({ type: 'handed-over', to: name });
};

export const pause = (intent: IntentOf<'pause'>): Decision => {
  const reason = readReason(intent.reason);
  return reason === undefined ? reasonMissing() : follow({ type: 'paused', reason });
};

export const resume = (run: OpenRun): Decision =>
  run.isPaused
    ? follow({ type: 'resumed' })
    : refuse('not-paused', 'The batch is not paused.', 'Go on with the step in hand.');

export const scrap = (run: OpenRun, intent: IntentOf<'scrap'>, context: Context): Decision => {
  const reason = readReason(intent.reason);
  return reason === undefined
    ? reasonMissing()
    : follow(...offeredInHand(run, context), { type: 'closed', outcome: 'rejected', reason });
};

export const closeBatch = (run: OpenRun): Decision => {
  const open = stepInHand(run);
  return open === undefined
    ? follow({ type: 'closed', outcome: 'made' })
    : refuse(
        'not-finished',
        `Step ${open.n} is not done.`,
        'Finish the steps, or scrap the batch with a reason.',
      );
};
