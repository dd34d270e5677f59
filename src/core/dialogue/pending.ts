/** Questions inside a question: a reason, a number, a yes that an intent still needs. */
import type { Intent } from '../run/intent.ts';
import type { Refusal } from '../run/refusal.ts';
import { isCommandWord } from './commands.ts';
import type { Question, QuestionKind } from './conversation.ts';
import type { Meaning, Pending } from './meaning.ts';

const back = { word: 'back', does: 'goes back without doing it' };
const help = { word: 'help', does: 'says what works now' };

const answers = {
  confirm: [{ word: 'yes', does: 'takes it' }],
  answer: [
    { word: 'yes', does: 'it was read wrongly: gives the right number' },
    { word: 'no', does: 'it was read rightly: asks why it is accepted' },
  ],
  number: [],
  reason: [],
} as const;

const kindOf = (pending: Pending): QuestionKind => {
  if (pending.kind === 'reason') return 'reason';
  if (pending.kind === 'confirm') {
    return pending.intent.type === 'weigh-vessel' ? 'vessel-far-off' : 'far-off';
  }
  return pending.kind === 'answer' ? 'slip' : 'amend';
};

/** What is asked while an intent waits to be whole. */
export const askPending = (pending: Pending, step: number | undefined): Question => ({
  kind: kindOf(pending),
  ask: `${pending.title} Or type back.`,
  field: pending.kind === 'number' ? 'quantity' : pending.kind === 'answer' ? 'enter' : 'text',
  commands: [...answers[pending.kind], back, help],
  isDeliberate: true,
  ...(step === undefined ? {} : { step }),
});

// A word of the program, or the next reading typed too early, is no reason.
const hearReason = (pending: Pending & { readonly kind: 'reason' }, text: string): Meaning =>
  isCommandWord(text)
    ? { kind: 'not-understood', text: `${text} is no reason. Type why, in a few words, or back.` }
    : { kind: 'intents', intents: [pending.intent(text)] };

const notYes: Meaning = { kind: 'not-understood', text: 'Type yes to take it, or back.' };

/** The meaning of a line while an intent waits; undefined for `back`. */
export const hearPending = (pending: Pending, line: string): Meaning | undefined => {
  const text = line.trim();
  if (text.toLowerCase() === 'back') return undefined;
  if (text.toLowerCase() === 'help') return { kind: 'help' };
  if (text.toLowerCase() === 'leave') return { kind: 'leave' };
  if (text === '') return { kind: 'not-understood', text: 'Type an answer first, or back.' };
  if (pending.kind === 'reason') return hearReason(pending, text);
  if (pending.kind !== 'confirm') return pending.meaning(text);
  return text.toLowerCase() === 'yes' ? { kind: 'intents', intents: [pending.intent] } : notYes;
};

const isDoubted = (intent: Intent) =>
  intent.type === 'weigh-vessel' || intent.type === 'adjust' || intent.type === 'tally';

/** What to ask when an intent was refused only because something is missing to it. */
export const pendingAfter = (intent: Intent, { code, message }: Refusal): Pending | undefined => {
  if (code === 'adjust-over-most' && intent.type === 'finish-adjust') {
    return { kind: 'reason', title: `${message} Why?`, intent: reason => ({ ...intent, reason }) };
  }
  return isDoubted(intent) && code.endsWith('-far-off')
    ? {
        kind: 'confirm',
        title: `${message} Type yes to take ${intent.typed ?? 'it'} all the same.`,
        intent: { ...intent, confirmed: true },
      }
    : undefined;
};
