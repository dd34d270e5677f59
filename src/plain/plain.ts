/**
 * The line mode: one question, one line, on stdin and stdout, so that a pipe, a braille display or a
 * script can run a batch. Nothing is ever redrawn.
 */
import { toAscii } from '../core/dialogue/ascii.ts';
import type { Conversation, Ending, Question, Saying } from '../core/dialogue/conversation.ts';
import { harmlessLines } from '../core/dialogue/harmless.ts';

/** Where lines come from and go to. `next` answers undefined at the end of the input. */
export interface Lines {
  readonly next: (isSecret: boolean) => Promise<string | undefined>;
  readonly print: (text: string) => void;
}

const marks: Readonly<Record<Saying['tone'], string>> = {
  good: 'ok: ',
  plain: '',
  mend: 'not done: ',
  stop: 'STOP: ',
};

const place = (conversation: Conversation, { step }: Question): string => {
  const run = conversation.run();
  if (run.phase === 'unbegun' || step === undefined) return '';
  const phase = run.plan.steps[step - 1]?.phase ?? 'finish';
  return `[${run.practice ? 'PRACTICE, ' : ''}${run.batch}, step ${step} of ${run.plan.steps.length}, ${phase}] `;
};

const sayAll = (conversation: Conversation, print: (text: string) => void): void => {
  for (const { tone, text } of conversation.said()) print(`${marks[tone]}${text}\n`);
};

const wordsOf = ({ commands }: Question): string => commands.map(({ word }) => word).join(', ');

/** Walks the conversation until it ends or the input does; the answer says how to go on. */
export const runPlain = async (
  conversation: Conversation,
  lines: Lines,
  { isAscii }: { readonly isAscii: boolean },
): Promise<Ending> => {
  const print = (text: string): void => lines.print(isAscii ? toAscii(text) : harmlessLines(text));
  let shown = '';
  for (;;) {
    sayAll(conversation, print);
    const ended = conversation.ending();
    if (ended !== undefined) {
      print(`${ended.text}\n`);
      return ended;
    }
    const question = conversation.question();
    const words = wordsOf(question);
    // Hints once, not at every question: read aloud, the same list again is noise.
    if (words !== shown) print(`(${words})\n`);
    shown = words;
    for (const { word, does } of question.choices ?? []) print(`  ${word}: ${does}\n`);
    for (const why of question.impossible ?? []) print(`  ${why}\n`);
    print(`${place(conversation, question)}${question.ask}\n> `);
    const line = await lines.next(question.field === 'secret');
    if (line === undefined) {
      print('\n');
      conversation.leave();
      continue;
    }
    await conversation.hear(line);
  }
};
