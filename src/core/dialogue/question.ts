import { everywhere } from './commands.ts';
import type { Command, Question } from './conversation.ts';

export const acceptWord = (does: string): Command => ({ word: 'accept', does });
export const mistyped: Command = {
  word: 'mistyped',
  does: 'the last number was typed wrong: gives the right one',
};

/** A question with the words that work everywhere. */
export const question = (
  kind: Question['kind'],
  ask: string,
  field: Question['field'],
  more: Partial<Question> = {},
): Question => ({ kind, ask, field, commands: everywhere, isDeliberate: false, ...more });
