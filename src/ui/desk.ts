/** What the keys work on: the field, what is remembered between two keys, and what is told. */
import type { Conversation, Question } from '../core/dialogue/conversation.ts';
import type { Cell } from './cell.ts';
import type { Field } from './keys/field.ts';
import type { Gate } from './keys/gate.ts';
import type { ScreenState, StoreOptions } from './screen-store.ts';

/** What a typist remembers between two keys. */
export interface Memory {
  gate: Gate;
  /** When the first key of the line came; absent for a line that was put into the field whole. */
  lineStart: number | undefined;
  /** What was typed and kept out since the last key that counted. */
  loose: string;
  lastLine: string;
}

export interface Desk {
  readonly conversation: Conversation;
  readonly cell: Cell<ScreenState>;
  readonly options: StoreOptions;
  readonly memory: Memory;
  /** Takes over the question that the conversation asks now. */
  readonly refresh: () => void;
}

export type Work = Promise<void> | undefined;

/** Readings, lots and bare Enters have a field of our own; free text and secrets go to ink-text-input. */
export const usesTextInput = ({ field, kind }: Question): boolean =>
  (field === 'text' && kind !== 'lot') || field === 'secret';

/** How a line is named where it is not used. A secret is never shown. */
export const nameOf = (line: string, { field }: Question): string => {
  if (field === 'secret') return 'What was typed';
  return line === '' ? 'Enter' : line;
};

export const tell = ({ cell }: Desk, notice: string): void => cell.set({ notices: [notice] });

export const showField = ({ cell, conversation }: Desk, field: Field): void => {
  const isSecret = cell.state().question.field === 'secret';
  cell.set({
    field,
    echo: field.text === '' || isSecret ? undefined : conversation.echo(field.text),
  });
};

/** Puts a whole text into the field; it was not typed there, so it takes an Enter of its own. */
export const putField = (desk: Desk, field: Field): void => {
  desk.memory.lineStart = undefined;
  showField(desk, field);
  desk.cell.set({ fieldVersion: desk.cell.state().fieldVersion + 1 });
};
