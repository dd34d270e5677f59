import { asked } from '../run/asked.ts';
import { wayInHand } from './ask-weigh.ts';
import type { Bench } from './bench.ts';
import type { Conversation } from './conversation.ts';
import { echoReading } from './echo.ts';
import { batchMode, chosenWay, leaveTalk, questionOf, runOf, stepOf, type Talk } from './talk.ts';
import { hearDesk, toDesk } from './talk-desk.ts';
import { hearRun } from './talk-run.ts';

const firstTalk = (bench: Bench): Talk => {
  const talk: Talk = {
    session: bench.session,
    person: bench.person,
    mode: { at: 'who' },
    said: [],
  };
  if (bench.session !== undefined) return { ...talk, mode: batchMode(bench, talk) };
  return bench.person === undefined ? talk : toDesk(bench, talk);
};

const echo = (bench: Bench, talk: Talk, typed: string): string | undefined => {
  const run = runOf(talk);
  const { mode } = talk;
  if (mode.at !== 'run' || mode.pending !== undefined || run.phase !== 'open') return undefined;
  const what = asked(run, bench.now());
  const n = stepOf(what);
  return n === undefined
    ? undefined
    : echoReading(run, what, wayInHand(run, n, chosenWay(talk, what)), typed);
};

const hear = (bench: Bench, talk: Talk, line: string): Talk | Promise<Talk> => {
  const run = runOf(talk);
  return talk.mode.at === 'run' && run.phase === 'open'
    ? hearRun(bench, talk, run, talk.mode.pending, line)
    : hearDesk(bench, talk, line);
};

/** Opens the conversation at the question that is due, whether the batch is new, resumed or only to be signed. */
export const createConversation = (bench: Bench): Conversation => {
  let talk = firstTalk(bench);
  const listeners = new Set<() => void>();
  return {
    run: () => runOf(talk),
    question: () => questionOf(bench, talk),
    said: () => talk.said,
    echo: typed => echo(bench, talk, typed),
    hear: async line => {
      talk = await hear(bench, talk, line);
      for (const listener of listeners) listener();
    },
    subscribe: listener => {
      listeners.add(listener);
      return () => listeners.delete(listener);
    },
    ending: () => (talk.mode.at === 'ended' ? talk.mode.ending : undefined),
    leave: () => {
      const left = leaveTalk(talk);
      talk = left;
      return left.mode.ending;
    },
  };
};
