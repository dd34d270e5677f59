/** From what the run waits for to the question that a face shows. */
import { beyondWindow } from '../plan/window.ts';
import { isPositive } from '../quantity/quantity.ts';
import { showDuration, showGrams } from '../quantity/show.ts';
import { type Asked, secondsLeft } from '../run/asked.ts';
import type { Way } from '../run/event.ts';
import { additionInHand, plannedStep } from '../run/focus.ts';
import type { OpenRun } from '../run/state.ts';
import type { Instant } from '../time/instant.ts';
import { askOver, askSlip } from './ask-over.ts';
import { askAdjust, askHold, askMeasure, askRunningHold, askTally, askTick } from './ask-step.ts';
import { askAfter, askLot, askReading, askResidue, askVessel, wayInHand } from './ask-weigh.ts';
import { duringPause, everywhere } from './commands.ts';
import type { Command, Question } from './conversation.ts';
import { showOn, titleOf, windowText } from './explain.ts';
import { acceptWord, question } from './question.ts';

const askResume = (): Question =>
  question('paused', 'The batch is paused. Type resume to go on.', 'enter', {
    commands: [{ word: 'resume', does: 'goes on' }, ...duringPause],
  });

const askClose = (): Question =>
  question(
    'close',
    'All steps are done. Type close to close the batch; nothing can be added after it.',
    'enter',
    {
      commands: [{ word: 'close', does: 'closes the batch and makes its record' }, ...everywhere],
    },
  );

const askWitness = (n: number): Question =>
  question(
    'witness',
    'The sheet asks for a witness. Type the name of the other person who saw it, or alone.',
    'text',
    {
      step: n,
      commands: [{ word: 'alone', does: 'nobody witnesses it: alone REASON' }, ...everywhere],
    },
  );

const askOverdue = (run: OpenRun, n: number, seconds: number): Question =>
  question(
    'overdue',
    `${titleOf(plannedStep(run, n))} The time for it passed ${showDuration(seconds)} ago.`,
    'enter',
    {
      step: n,
      commands: [acceptWord('goes on late, with a reason'), ...everywhere],
      isDeliberate: true,
    },
  );

const askGone = (run: OpenRun, n: number): Question => {
  const found = additionInHand(run, n);
  if (found === undefined) throw new RangeError(`step ${n} is no addition`);
  const { addition, state } = found;
  const beyond = beyondWindow(state.total, addition.window);
  return question(
    'gone',
    `${addition.name}: ${showOn(addition, state.total)} went in, ${isPositive(beyond) ? 'over' : 'under'} the window ${windowText(addition)}, and ${addition.vessel} was emptied since. Type accept and say why it is kept, or scrap.`,
    'enter',
    {
      step: n,
      commands: [acceptWord('keeps the batch, with a reason'), ...everywhere],
      isDeliberate: true,
    },
  );
};

const putBack: Command = {
  word: 'put back',
  does: 'the batch is not made bigger after all: everything is as before',
};

const withTimeLeft = (run: OpenRun, question: Question, now: Instant): Question => {
  const left = question.step === undefined ? undefined : secondsLeft(run, question.step, now);
  return left === undefined || left < 0
    ? question
    : { ...question, ask: `${question.ask} Time left: ${showDuration(left)}.` };
};

/** The question for what the run waits for; `way` is the one that the maker chose for the addition in hand. */
export const askFor = (
  run: OpenRun,
  asked: Asked,
  now: Instant,
  way: Way | undefined,
): Question => {
  const question = withTimeLeft(run, askStep(run, asked, now, way), now);
  return run.remedy === undefined
    ? question
    : { ...question, commands: [putBack, ...question.commands] };
};

const askStep = (run: OpenRun, asked: Asked, now: Instant, way: Way | undefined): Question => {
  switch (asked.kind) {
    case 'resume':
      return askResume();
    case 'close':
      return askClose();
    case 'overdue':
      return askOverdue(run, asked.n, asked.seconds);
    case 'vessel':
      return askVessel(
        asked.n,
        asked.vessel.name,
        asked.vessel.tare && showGrams(asked.vessel.tare, 1),
      );
    case 'lot':
      return askLot(run, asked.n, asked.material, asked.known);
    case 'reading':
      return askReading(run, asked.n, wayInHand(run, asked.n, way));
    case 'residue':
      return askResidue(asked.n);
    case 'after':
      return askAfter(run, asked.n);
    case 'over':
      return askOver(run, asked.n);
    case 'gone':
      return askGone(run, asked.n);
    case 'slip':
      return askSlip(asked.n, asked.slip);
    case 'witness':
      return askWitness(asked.n);
    case 'tick':
      return askTick(run, asked.n);
    case 'hold':
      return askHold(run, asked.n);
    case 'hold-running':
      return askRunningHold(run, asked.n, now);
    case 'measure':
    case 'measure-out':
      return askMeasure(run, asked.n, asked.kind === 'measure-out');
    case 'adjust':
      return askAdjust(run, asked.n);
    case 'tally':
      return askTally(run, asked);
  }
};
