import { showDuration } from '../quantity/show.ts';
import { type Asked, asked } from './asked.ts';
import { type Context, type Decision, refuse } from './decision.ts';
import type { OpenRun } from './state.ts';

/** Refuses an intent on any step but the one in hand, and while something else is asked there. */
export const outOfTurn = (
  run: OpenRun,
  n: number,
  { at }: Context,
  kinds: readonly Asked['kind'][],
): Decision | undefined => {
  const now = asked(run, at);
  if (now.kind === 'close' || now.kind === 'resume' || now.n !== n) {
    return refuse('not-this-step', `Step ${n} is not the one in hand.`, 'Answer the step in hand.');
  }
  if (now.kind === 'overdue') {
    return refuse(
      'overdue',
      `Its time passed ${showDuration(now.seconds)} ago.`,
      'Accept it with a reason, or scrap the batch.',
    );
  }
  if (kinds.includes(now.kind)) return undefined;
  if (now.kind === 'gone') {
    return refuse(
      'decision-due',
      'What was put right is out of its window, and its vessel was emptied.',
      'Accept it with a reason, or scrap the batch.',
    );
  }
  if (now.kind === 'slip') {
    return refuse('decision-due', now.slip.asks, 'Answer yes or no first.');
  }
  if (now.kind === 'over') {
    return refuse(
      'decision-due',
      'Too much is in.',
      'Take back, accept it with a reason, or scrap the batch.',
    );
  }
  if (now.kind === 'lot')
    return refuse('no-lot', 'Its lot is not known yet.', 'Type the lot number first.');
  if (now.kind === 'vessel') {
    return refuse(
      'vessel-not-weighed',
      `${now.vessel.name} is not weighed yet.`,
      'Weigh it empty first.',
    );
  }
  if (now.kind === 'witness')
    return refuse(
      'witness-needed',
      'The line waits for its witness.',
      'Type why nobody witnesses it.',
    );
  return refuse('wrong-kind', `Step ${n} does not take that now.`, 'Answer what it asks.');
};
