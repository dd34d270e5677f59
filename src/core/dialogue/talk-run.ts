/** Lines that are heard while a batch is open. */
import { asked } from '../run/asked.ts';
import { readName } from '../run/decide-batch.ts';
import type { Intent } from '../run/intent.ts';
import type { Refusal } from '../run/refusal.ts';
import type { OpenRun, Run } from '../run/state.ts';
import type { Bench } from './bench.ts';
import type { Saying } from './conversation.ts';
import { hearLine } from './hear.ts';
import type { Meaning, Pending } from './meaning.ts';
import { hearPending, pendingAfter } from './pending.ts';
import { sayEvents, sayRefusal } from './say.ts';
import { good, mend, stop } from './saying.ts';
import {
  again,
  batchMode,
  chosenWay,
  helpFor,
  keyMode,
  leaveTalk,
  questionOf,
  runOf,
  settle,
  stepOf,
  type Talk,
} from './talk.ts';

/** Whether it is the answer that another try can mend, so that the question stays; else the intent is dropped. */
const isAnswerRefused = ({ mode }: Talk, { code }: Refusal): boolean =>
  code === 'reason-missing' ||
  (mode.at === 'run' && mode.pending?.kind === 'number' && code !== 'cannot-take-back');

const afterRefusal = (
  bench: Bench,
  talk: Talk,
  intent: Intent,
  refusal: Refusal,
  said: readonly Saying[],
): Talk => {
  const pending = pendingAfter(intent, refusal);
  const mode = batchMode(bench, talk);
  if (pending !== undefined && mode.at === 'run')
    return settle(talk, { ...mode, pending }, ...said);
  return isAnswerRefused(talk, refusal)
    ? again(talk, ...said, sayRefusal(refusal))
    : settle(talk, mode, ...said, sayRefusal(refusal));
};

const hasWentBack = (run: Run, seq: number): boolean =>
  run.phase !== 'unbegun' && run.clockWentBack.includes(seq);

const clockWentBack = mend(
  'The clock of this computer went backwards. Set it right: times and holds are reckoned by it. The record shows it.',
);

/** Dispatches intents in order; the first that is refused ends it. */
export const dispatchAll = (
  bench: Bench,
  talk: Talk,
  { intents, next }: Meaning & { readonly kind: 'intents' },
): Talk => {
  const said: Saying[] = [];
  for (const intent of intents) {
    const outcome = talk.session?.dispatch(intent);
    if (outcome?.kind === 'refused')
      return afterRefusal(bench, talk, intent, outcome.refusal, said);
    if (outcome?.kind !== 'done') {
      const why = outcome?.why ?? 'no batch is open.';
      return again(
        talk,
        ...said,
        stop(`Not written: ${why} Nothing is lost; answer again to try once more.`),
      );
    }
    said.push(...sayEvents(runOf(talk), outcome.events));
    if (outcome.events.some(each => hasWentBack(runOf(talk), each.seq))) said.push(clockWentBack);
  }
  const mode = batchMode(bench, talk);
  return settle(
    talk,
    mode.at === 'run' && next !== undefined ? { ...mode, pending: next } : mode,
    ...said,
  );
};

const toWitness = (
  bench: Bench,
  talk: Talk,
  run: OpenRun,
  { step, name: typed }: Meaning & { readonly kind: 'witness' },
): Talk => {
  const name = readName(typed);
  if (name === undefined || name === run.person) {
    return again(
      talk,
      mend('A witness is another person than the one who weighed. Type a name, or alone.'),
    );
  }
  return settle(talk, keyMode(bench, { kind: 'witness', name, step }));
};

const carryOut = (bench: Bench, talk: Talk, run: OpenRun, meaning: Meaning): Talk => {
  switch (meaning.kind) {
    case 'intents':
      return dispatchAll(bench, talk, meaning);
    case 'pending':
      return settle(talk, { ...batchMode(bench, talk), at: 'run', pending: meaning.pending });
    case 'way': {
      const n = stepOf(asked(run, bench.now()));
      if (n === undefined) return talk;
      return settle(
        talk,
        { at: 'run', way: { n, way: meaning.way } },
        good(`Reading: ${meaning.way}.`),
      );
    }
    case 'witness':
      return toWitness(bench, talk, run, meaning);
    case 'leave':
      return leaveTalk(talk);
    case 'help':
      return again(talk, ...helpFor(questionOf(bench, talk)));
    case 'not-understood':
      return again(talk, mend(meaning.text));
  }
};

/** What follows from a line while the batch is open. */
export const hearRun = (
  bench: Bench,
  talk: Talk,
  run: OpenRun,
  pending: Pending | undefined,
  line: string,
): Talk => {
  if (pending === undefined) {
    const what = asked(run, bench.now());
    return carryOut(bench, talk, run, hearLine(run, what, chosenWay(talk, what), line));
  }
  const meaning = hearPending(pending, line);
  return meaning === undefined
    ? settle(talk, batchMode(bench, talk), good('Nothing was changed.'))
    : carryOut(bench, talk, run, meaning);
};
