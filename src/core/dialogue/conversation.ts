/**
 * One batch as a dialogue of lines: what is asked now, what was said, what a typed line means. Both
 * faces show the same conversation, so they can do exactly the same things; a screen only paints more
 * of it than a line does.
 */
import type { Way } from '../run/event.ts';
import type { Run } from '../run/state.ts';

export type QuestionKind =
  | 'who'
  | 'scales'
  | 'begin'
  | 'vessel'
  | 'vessel-far-off'
  | 'far-off'
  | 'lot'
  | 'reading'
  | 'residue'
  | 'after'
  | 'over'
  | 'gone'
  | 'slip'
  | 'amend'
  | 'witness'
  | 'overdue'
  | 'tick'
  | 'hold'
  | 'hold-running'
  | 'measure'
  | 'measure-out'
  | 'adjust'
  | 'tally'
  | 'reason'
  | 'paused'
  | 'close'
  | 'new-passphrase'
  | 'repeat-passphrase'
  | 'passphrase'
  | 'finished';

/** A word that works now, and what it does. */
export interface Command {
  readonly word: string;
  readonly does: string;
}

export interface Question {
  readonly kind: QuestionKind;
  /** The step of the plan that it is about. */
  readonly step?: number;
  /** The next act, in one or two sentences. */
  readonly ask: string;
  /** What the field takes: `secret` is never shown, `enter` takes nothing but Enter and commands. */
  readonly field: 'quantity' | 'text' | 'secret' | 'enter';
  /** What Enter alone does; absent where it does nothing. */
  readonly enter?: string;
  readonly commands: readonly Command[];
  /** How the reading is taken, where one is asked for. */
  readonly way?: Way;
  /** The ways out of a trouble, each with its numbers: shown whole, not only in help. */
  readonly choices?: readonly Command[];
  /** The ways out that are none, each with its reason. */
  readonly impossible?: readonly string[];
  /** True where an answer that was typed before the question was seen must not count. */
  readonly isDeliberate: boolean;
}

export interface Saying {
  readonly tone: 'good' | 'plain' | 'mend' | 'stop';
  readonly text: string;
}

/** How a conversation ended: the exit status and the sentence that says how to go on. */
export interface Ending {
  readonly status: 0 | 4;
  readonly text: string;
}

export interface Conversation {
  readonly run: () => Run;
  readonly question: () => Question;
  /** What was said in answer to the last line. */
  readonly said: () => readonly Saying[];
  /** How the text in the field would be understood, with its unit; undefined while there is nothing to say. */
  readonly echo: (typed: string) => string | undefined;
  /** Takes one line without its line end. Resolves when all that follows from it is on disk. */
  readonly hear: (line: string) => Promise<void>;
  readonly subscribe: (listener: () => void) => () => void;
  readonly ending: () => Ending | undefined;
  /** Leaves safely at any time, as Ctrl+C or the end of the input does. */
  readonly leave: () => Ending;
}
