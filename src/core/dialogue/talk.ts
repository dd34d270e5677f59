/** Where a conversation is. Each line heard makes the next talk out of this one. */
import { type Asked, asked } from '../run/asked.ts';
import type { Way } from '../run/event.ts';
import { stepInHand } from '../run/focus.ts';
import type { RunSession } from '../run/session.ts';
import { type OpenRun, type Run, unbegun } from '../run/state.ts';
import { askFor } from './ask.ts';
import type { Bench } from './bench.ts';
import type { Ending, Question, Saying } from './conversation.ts';
import {
  askBegin,
  askBeginReason,
  askFinished,
  askNewPassphrase,
  askPassphrase,
  askRepeat,
  askScales,
  askWho,
} from './desk.ts';
import type { KeyAct } from './key-act.ts';
import type { Pending } from './meaning.ts';
import { askPending } from './pending.ts';
import { plain } from './saying.ts';

export type Mode =
  | { readonly at: 'who' }
  | { readonly at: 'scales'; readonly entered: number }
  | { readonly at: 'begin' }
  | { readonly at: 'begin-reason' }
  | RunMode
  | { readonly at: 'new-passphrase'; readonly act: KeyAct }
  | { readonly at: 'repeat-passphrase'; readonly act: KeyAct; readonly first: string }
  | { readonly at: 'passphrase'; readonly act: KeyAct }
  | { readonly at: 'finished'; readonly text: string }
  | { readonly at: 'ended'; readonly ending: Ending };

/** Asks for the passphrase of a key, or for a new one where the person has no key here. */
export const keyMode = (bench: Bench, act: KeyAct): Mode => ({
  at: bench.hasKey(act.name) ? 'passphrase' : 'new-passphrase',
  act,
});

export interface RunMode {
  readonly at: 'run';
  readonly pending?: Pending;
  /** The way of reading chosen for a step, while it is in hand. */
  readonly way?: { readonly n: number; readonly way: Way };
}

export interface Talk {
  readonly session: RunSession | undefined;
  readonly person: string | undefined;
  readonly mode: Mode;
  readonly said: readonly Saying[];
}

/** The same talk in another mode, with what is said about it. */
export const settle = (talk: Talk, mode: Mode, ...said: readonly Saying[]): Talk => ({
  ...talk,
  mode,
  said,
});

/** The same question again, with what was wrong. */
export const again = (talk: Talk, ...said: readonly Saying[]): Talk => ({ ...talk, said });

export const runOf = ({ session }: Talk): Run => session?.state() ?? unbegun;

/** Who signs: the person who had the batch in hand when it was closed. */
const signer = (talk: Talk): string => {
  const run = runOf(talk);
  return run.phase === 'unbegun' ? (talk.person ?? '') : run.person;
};

export const stepOf = (what: Asked): number | undefined => ('n' in what ? what.n : undefined);

/** The way chosen for the step that is asked about; undefined where the usual one holds. */
export const chosenWay = ({ mode }: Talk, what: Asked): Way | undefined =>
  mode.at === 'run' && mode.way !== undefined && mode.way.n === stepOf(what)
    ? mode.way.way
    : undefined;

/** Before the batch is begun: its scales when a real batch finds none, else the question to begin. */
export const deskMode = (bench: Bench): Mode =>
  bench.opening?.practice === false && bench.scales().length === 0
    ? { at: 'scales', entered: 0 }
    : { at: 'begin' };

/** With a batch: the step in hand, or the signature once it is closed. */
export const batchMode = (bench: Bench, talk: Talk): Mode => {
  const { mode } = talk;
  if (runOf(talk).phase === 'closed') {
    return keyMode(bench, { kind: 'sign', name: signer(talk) });
  }
  return mode.at === 'run' && mode.way !== undefined ? { at: 'run', way: mode.way } : { at: 'run' };
};

const askRun = (bench: Bench, talk: Talk, run: OpenRun, pending: Pending | undefined): Question => {
  const now = bench.now();
  const what = asked(run, now);
  return pending === undefined
    ? askFor(run, what, now, chosenWay(talk, what))
    : askPending(pending, stepOf(what));
};

/** The question that is due. */
export const questionOf = (bench: Bench, talk: Talk): Question => {
  const { mode } = talk;
  const run = runOf(talk);
  switch (mode.at) {
    case 'who':
      return askWho();
    case 'scales':
      return askScales(mode.entered);
    case 'begin':
      return bench.opening === undefined
        ? askFinished('There is nothing to begin.')
        : askBegin(bench, bench.opening);
    case 'begin-reason':
      return askBeginReason();
    case 'run':
      return run.phase === 'open'
        ? askRun(bench, talk, run, mode.pending)
        : askFinished('The batch is closed.');
    case 'new-passphrase':
      return askNewPassphrase(mode.act);
    case 'repeat-passphrase':
      return askRepeat();
    case 'passphrase':
      return askPassphrase(mode.act);
    case 'finished':
      return askFinished(mode.text);
    case 'ended':
      return askFinished(mode.ending.text);
  }
};

const resumeHint = (run: Run): string => {
  if (run.phase === 'unbegun') return 'Left. Nothing was begun.';
  if (run.phase === 'closed')
    return `${run.batch} is closed and not signed yet: \`tarebook sign ${run.batch} --as "made by"\`.`;
  const step = stepInHand(run);
  const where =
    step === undefined ? 'with all steps done' : `at step ${step.n} of ${run.plan.steps.length}`;
  return `Left ${where}. \`tarebook resume ${run.batch}\` goes on.`;
};

/** The talk as it is left, at any time. */
export const leaveTalk = (
  talk: Talk,
): Talk & { readonly mode: { readonly at: 'ended'; readonly ending: Ending } } => {
  const { mode } = talk;
  if (mode.at === 'ended') return { ...talk, mode };
  const ending: Ending =
    mode.at === 'finished'
      ? { status: 0, text: mode.text }
      : { status: 4, text: resumeHint(runOf(talk)) };
  return { ...talk, mode: { at: 'ended', ending }, said: [] };
};

/** What works at a question, as sayings. */
export const helpFor = ({ enter, commands }: Question): readonly Saying[] => [
  ...(enter === undefined ? [] : [plain(`Enter: ${enter}`)]),
  ...commands.map(({ word, does }) => plain(`${word}: ${does}`)),
];
