/**
 * What the screen shows and how keys change it, outside React. Keys are taken strictly one after the
 * other; a line is heard only when everything from the line before it is on disk.
 */
import type { Conversation, Question, Saying } from '../core/dialogue/conversation.ts';
import type { Run } from '../core/run/state.ts';
import { createCell } from './cell.ts';
import type { Key } from './keys/decoder.ts';
import { emptyField, type Field } from './keys/field.ts';
import { isSameQuestion } from './keys/gate.ts';
import { createTypist } from './typist.ts';
import type { HelpView } from './view/help.ts';

export interface Size {
  readonly columns: number;
  readonly rows: number;
}

export interface ScreenState {
  readonly run: Run;
  readonly question: Question;
  readonly said: readonly Saying[];
  readonly notices: readonly string[];
  readonly field: Field;
  readonly echo: string | undefined;
  /** Changes whenever the field's text was not typed into it: an editor with a state of its own starts anew. */
  readonly fieldVersion: number;
  readonly help: HelpView | undefined;
  readonly size: Size;
}

export interface ScreenStore {
  readonly state: () => ScreenState;
  readonly subscribe: (listener: () => void) => () => void;
  /** Keys of one chunk with its time in milliseconds, on the clock that `clock` reads. */
  readonly take: (keys: readonly Key[], at: number) => void;
  /** The editor for free text has a new text. */
  readonly typed: (text: string) => void;
  readonly resize: (size: Size) => void;
  /** The question stands on the terminal. */
  readonly painted: (question: Question) => void;
  /** A second of a running hold has passed. */
  readonly tick: () => void;
}

export interface StoreOptions {
  readonly size: Size;
  /** Monotonic milliseconds. */
  readonly clock: () => number;
  /** Gives a key to the editor for free text; false when it is not there. */
  readonly send: (key: Key, field: Field) => Promise<boolean>;
  /** The furthest that help can be scrolled. */
  readonly lastHelpTop: (state: ScreenState) => number;
  /** Ctrl+C. */
  readonly onInterrupt: () => void;
  /** The conversation may have ended. */
  readonly onHeard: () => void;
  readonly onFault: (fault: unknown) => void;
}

const firstState = (conversation: Conversation, size: Size): ScreenState => ({
  run: conversation.run(),
  question: conversation.question(),
  said: conversation.said(),
  notices: [],
  field: emptyField,
  echo: undefined,
  fieldVersion: 0,
  help: undefined,
  size,
});

export const createScreenStore = (
  conversation: Conversation,
  options: StoreOptions,
): ScreenStore => {
  const cell = createCell(firstState(conversation, options.size));
  const refresh = (): void => {
    const before = cell.state().question;
    const question = conversation.question();
    cell.set({ run: conversation.run(), question, said: conversation.said() });
    if (!isSameQuestion(before, question)) typist.asked(question);
  };
  const typist = createTypist(conversation, cell, options, refresh);
  conversation.subscribe(refresh);
  typist.asked(cell.state().question);
  return {
    state: cell.state,
    subscribe: cell.subscribe,
    take: typist.take,
    typed: typist.typed,
    painted: question => {
      if (isSameQuestion(question, cell.state().question)) typist.painted();
    },
    resize: size => cell.set({ size }),
    tick: refresh,
  };
};
