import { type Problem, problem } from './problem.ts';
import type { Place } from './sheet.ts';

// C0 but tab and line ends, DEL and C1, the controls of writing direction, a byte order mark, halves
// of a surrogate pair.
const refused =
  // oxlint-disable-next-line no-control-regex
  /[\0-\x08\x0b\x0c\x0e-\x1f\x7f-\x9f\u061c\u200e\u200f\u202a-\u202e\u2066-\u2069\ufeff]|\r(?!\n)|\p{Surrogate}/u;
const everyRefused = new RegExp(refused, 'gu');

const nameOf = (character: string): string =>
  `U+${(character.codePointAt(0) ?? 0).toString(16).toUpperCase().padStart(4, '0')}`;

/** Finds each character that no sheet needs and that a terminal or a reader may obey. */
export const checkCharacters = (text: string, placeOf: (offset: number) => Place): Problem[] =>
  [...text.matchAll(everyRefused)].map(({ 0: character, index }) =>
    problem(
      'control-character',
      placeOf(index),
      `The invisible character ${nameOf(character)} stands here.`,
      'Delete it; typing this part of the line again is the easiest way.',
    ),
  );

/** Whether text holds such a character: one written as an escape, as in "\e", is in the text only. */
export const hasRefusedCharacter = (text: string): boolean => refused.test(text);

export const refusedInText = (place: Place): Problem =>
  problem(
    'control-character',
    place,
    'A backslash in this text makes an invisible character.',
    'Delete the backslash and what belongs to it, or use single quotes.',
  );
