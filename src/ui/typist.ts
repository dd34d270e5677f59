/** What each key does: edits the field, gives a line to the conversation, or is kept out and named. */
import type { Conversation, Question } from '../core/dialogue/conversation.ts';
import type { Cell } from './cell.ts';
import {
  type Desk,
  type Memory,
  nameOf,
  putField,
  showField,
  tell,
  usesTextInput,
  type Work,
} from './desk.ts';
import { pressInHelp } from './help-keys.ts';
import type { Key } from './keys/decoder.ts';
import { editField, emptyField, fieldWith } from './keys/field.ts';
import {
  afterAnswer,
  afterAsking,
  afterEcho,
  afterPainting,
  afterUnseen,
  isEcho,
  isSameQuestion,
  isUnseen,
  openGate,
} from './keys/gate.ts';
import { inTurn } from './keys/in-turn.ts';
import type { ScreenState, StoreOptions } from './screen-store.ts';
import { isTooSmall } from './view/too-small.ts';

export interface Typist {
  readonly take: (keys: readonly Key[], at: number) => void;
  readonly typed: (text: string) => void;
  readonly asked: (question: Question) => void;
  readonly painted: () => void;
}

const textOf = (key: Key): string => ('text' in key ? key.text : '');

const keepOut = (desk: Desk, key: Key, why: string): void => {
  const { memory, cell } = desk;
  memory.loose += textOf(key);
  if (textOf(key) !== '' || key.kind === 'enter') {
    tell(desk, `${nameOf(memory.loose, cell.state().question)} not used: ${why}`);
  }
};

const hear = async (desk: Desk, line: string): Promise<void> => {
  const { conversation, cell, memory, options } = desk;
  const before = cell.state().question;
  cell.set({ notices: [] });
  await conversation.hear(line);
  memory.gate = afterAnswer(memory.gate, before, conversation.question(), options.clock());
  options.onHeard();
};

const submit = (desk: Desk, at: number): Work => {
  const { cell, memory } = desk;
  const { field, question } = cell.state();
  const isPut = memory.lineStart === undefined && field.text !== '';
  const start = memory.lineStart ?? at;
  const line = field.text;
  if (!isPut || !isEcho(memory.gate, start)) putField(desk, emptyField);
  if (isEcho(memory.gate, start)) {
    memory.gate = afterEcho(memory.gate, at);
    if (isPut) return undefined;
    tell(
      desk,
      `${nameOf(line, question)} set aside, not used: it followed the last entry by itself.`,
    );
    return undefined;
  }
  if (line.trim().toLowerCase() === 'help' && question.field !== 'secret') {
    cell.set({ help: { top: 0 }, notices: [] });
    return undefined;
  }
  if (question.field !== 'secret') memory.lastLine = line;
  // A deadline may have passed since: an answer counts only for the question that was seen.
  if (!isSameQuestion(question, desk.conversation.question())) {
    desk.refresh();
    tell(desk, `${nameOf(line, question)} not used: it was typed before this question.`);
    return undefined;
  }
  return hear(desk, line);
};

const edit = (desk: Desk, key: Key, at: number): Work => {
  const { cell, memory, options } = desk;
  const { field, question } = cell.state();
  if (field.text === '') memory.lineStart = at;
  const after = editField(field, key);
  if (!usesTextInput(question)) {
    showField(desk, after);
    return undefined;
  }
  return options.send(key, field).then(isTaken => {
    const now = isTaken ? cell.state().field.text : after.text;
    showField(desk, { text: now, caret: Math.min(after.caret, now.length) });
  });
};

/** Escape goes back where the question offers it, and never takes away what is in the field. */
const goBack = (desk: Desk): Work => {
  const { field, question } = desk.cell.state();
  const canGoBack = question.commands.some(each => each.word === 'back');
  return canGoBack && field.text === '' ? hear(desk, 'back') : undefined;
};

const recall = (desk: Desk): void => {
  const { field } = desk.cell.state();
  if (field.text === '') putField(desk, fieldWith(desk.memory.lastLine));
};

const press = (desk: Desk, key: Key, at: number): Work => {
  const { cell, memory } = desk;
  const { size, help, question } = cell.state();
  if (isTooSmall(size.columns, size.rows)) {
    keepOut(desk, key, 'the window is too small.');
    return undefined;
  }
  if (help !== undefined) {
    pressInHelp(desk, key, at);
    return undefined;
  }
  if (isUnseen(memory.gate, question, at)) {
    memory.gate = afterUnseen(memory.gate, at);
    keepOut(desk, key, 'it came before the question could be read.');
    return undefined;
  }
  memory.loose = '';
  if (key.kind === 'enter') return submit(desk, at);
  if (key.kind === 'escape') return goBack(desk);
  if (key.kind !== 'up') return edit(desk, key, at);
  recall(desk);
  return undefined;
};

const asked = (desk: Desk, question: Question): void => {
  const { cell, memory } = desk;
  memory.gate = afterAsking(memory.gate, question);
  const { text } = cell.state().field;
  if (!question.isDeliberate || text === '') return;
  tell(desk, `${text} not used: it was typed before this question.`);
  putField(desk, emptyField);
};

export const createTypist = (
  conversation: Conversation,
  cell: Cell<ScreenState>,
  options: StoreOptions,
  refresh: () => void,
): Typist => {
  const memory: Memory = {
    gate: openGate,
    lineStart: undefined,
    loose: '',
    lastLine: '',
  };
  const desk: Desk = { conversation, cell, options, memory, refresh };
  const keys = inTurn<{ readonly key: Key; readonly at: number }>(
    ({ key, at }) => press(desk, key, at),
    options.onFault,
  );
  return {
    take: (chunk, at) => {
      for (const key of chunk) {
        if (key.kind === 'ctrl' && key.letter === 'c') {
          options.onInterrupt();
          return;
        }
        keys.add({ key, at });
      }
    },
    typed: text => showField(desk, fieldWith(text)),
    asked: question => asked(desk, question),
    painted: () => {
      memory.gate = afterPainting(memory.gate, options.clock());
    },
  };
};
