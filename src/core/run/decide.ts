/**
 * From what a maker asks to the events that follow, or to a refusal that says why and what to do
 * instead. Pure: the instant and the person come with the context; nothing here knows a clock or a file.
 */

import { accept } from './decide-accept.ts';
import { amend } from './decide-amend.ts';
import { closeBatch, handOver, note, pause, resume, scrap, turnTo } from './decide-batch.ts';
import { beginBatch } from './decide-begin.ts';
import { read, takeBack, tare } from './decide-read.ts';
import { answerSlip, chooseRemedy, leaveRemedy } from './decide-remedy.ts';
import {
  adjust,
  endHold,
  finishAdjust,
  goUnwitnessed,
  measure,
  putLater,
  startHold,
  tally,
  tick,
  witness,
} from './decide-step.ts';
import { identifyLot, weighVessel } from './decide-vessel.ts';
import { type Context, type Decision, refuse } from './decision.ts';
import type { Intent } from './intent.ts';
import type { OpenRun, Run } from './state.ts';

type OpenIntent = Exclude<Intent, { readonly type: 'begin' }>;

const whilePaused: ReadonlySet<Intent['type']> = new Set(['resume', 'note', 'scrap', 'hand-over']);

type LaterIntent = Extract<
  OpenIntent,
  {
    readonly type: 'set-aside' | 'add-outside' | 'next-portion';
  }
>;

const laterWords: Record<LaterIntent['type'], string> = {
  'set-aside': 'Setting aside as a lot',
  'add-outside': 'An addition outside the sheet',
  'next-portion': 'Making a phase in portions',
};

// Their place in the machine; each comes with the version that walks it.
const notYet = ({ type }: LaterIntent): Decision =>
  refuse(
    'not-yet',
    `${laterWords[type]} cannot be recorded in this version.`,
    'Write it down with note, so that it stands in the record.',
  );

const decideOpen = (run: OpenRun, intent: OpenIntent, context: Context): Decision => {
  switch (intent.type) {
    case 'weigh-vessel':
      return weighVessel(run, intent);
    case 'identify-lot':
      return identifyLot(run, intent, context);
    case 'read':
      return read(run, intent, context);
    case 'tare':
      return tare(run, intent, context);
    case 'take-back':
      return takeBack(run, intent, context);
    case 'amend':
      return amend(run, intent);
    case 'accept':
      return accept(run, intent, context);
    case 'choose-remedy':
      return chooseRemedy(run, intent, context);
    case 'leave-remedy':
      return leaveRemedy(run);
    case 'answer-slip':
      return answerSlip(run, intent, context);
    case 'tick':
      return tick(run, intent, context);
    case 'start-hold':
      return startHold(run, intent, context);
    case 'end-hold':
      return endHold(run, intent, context);
    case 'measure':
      return measure(run, intent, context);
    case 'adjust':
      return adjust(run, intent, context);
    case 'finish-adjust':
      return finishAdjust(run, intent, context);
    case 'tally':
      return tally(run, intent, context);
    case 'put-later':
      return putLater(run, intent, context);
    case 'witness':
      return witness(run, intent, context);
    case 'go-unwitnessed':
      return goUnwitnessed(run, intent, context);
    case 'turn-to':
      return turnTo(run, intent);
    case 'note':
      return note(run, intent);
    case 'hand-over':
      return handOver(run, intent);
    case 'pause':
      return pause(intent);
    case 'resume':
      return resume(run);
    case 'scrap':
      return scrap(run, intent, context);
    case 'close':
      return closeBatch(run);
    default:
      return notYet(intent);
  }
};

/** The events that follow from an intent, none of them yet true, or the refusal. */
export const decide = (run: Run, intent: Intent, context: Context): Decision => {
  if (intent.type === 'begin') {
    return run.phase === 'unbegun'
      ? beginBatch(intent, context)
      : refuse(
          'already-begun',
          'This batch has begun already.',
          'Go on with it, or begin another.',
        );
  }
  if (run.phase === 'unbegun')
    return refuse('not-begun', 'The batch has not begun.', 'Begin it first.');
  if (run.phase === 'closed') {
    return refuse(
      'already-closed',
      'This batch is closed.',
      'Its record can be signed, printed and verified.',
    );
  }
  if (run.isPaused && !whilePaused.has(intent.type)) {
    return refuse('paused', 'The batch is paused.', 'Type resume to go on.');
  }
  return decideOpen(run, intent, context);
};
