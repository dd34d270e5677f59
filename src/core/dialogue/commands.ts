/** The words that a maker types into the field, and what each does. Whole words, ended by Enter. */
import type { Command } from './conversation.ts';

/** Words that work at every step of an open batch. */
export const everywhere: readonly Command[] = [
  { word: 'note', does: 'writes a note into the record: note TEXT' },
  { word: 'amend', does: 'puts an earlier reading right: amend, or amend NUMBER VALUE' },
  { word: 'turn', does: 'goes to another phase while this one waits: turn PHASE' },
  { word: 'pause', does: 'pauses the batch, with a reason' },
  { word: 'hand over', does: 'another person goes on: hand over NAME' },
  { word: 'scrap', does: 'closes the batch as rejected, with a reason' },
  { word: 'leave', does: 'leaves; resume goes on at this very step' },
  { word: 'help', does: 'says what works now' },
];

export const duringPause: readonly Command[] = everywhere.filter(
  ({ word }) => word !== 'pause' && word !== 'turn' && word !== 'amend',
);

export const atTheDesk: readonly Command[] = everywhere.filter(
  ({ word }) => word === 'leave' || word === 'help',
);

const twoWords = new Set(['take back', 'put back', 'go on', 'hand over']);

/** Words that mean something at some other question: none of them is taken for a lot by itself. */
export const isCommandWord = (text: string): boolean => elsewhere.has(text.toLowerCase());

const elsewhere: ReadonlySet<string> = new Set([
  ...twoWords,
  ...everywhere.map(({ word }) => word),
  'net',
  'gross',
  'cup',
  'difference',
  'tare',
  'lot',
  'later',
  'mistyped',
  'amend',
  'accept',
  'alone',
  'done',
  'stretch',
  'pieces',
  'proportion',
  'yes',
  'no',
  'back',
  'all',
  'close',
  'resume',
]);

export interface Line {
  /** In lower case. */
  readonly word: string;
  readonly rest: string;
}

/** Splits a line into its command word and what follows. */
export const splitLine = (line: string): Line => {
  const [first = '', second = '', ...others] = line.trim().split(/\s+/);
  const pair = `${first} ${second}`.toLowerCase();
  return twoWords.has(pair)
    ? { word: pair, rest: others.join(' ') }
    : { word: first.toLowerCase(), rest: line.trim().slice(first.length).trim() };
};
