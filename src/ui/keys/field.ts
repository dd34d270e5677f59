/** The one line that is being typed: pure, so that a reading is the same at any speed of its keys. */
import type { Key } from './decoder.ts';

export interface Field {
  readonly text: string;
  /** Counts UTF-16 units from the start; never inside a surrogate pair. */
  readonly caret: number;
}

export const emptyField: Field = { text: '', caret: 0 };

/** Longer lines are no reading, lot or reason; what goes beyond is not taken. */
export const maxLength = 400;

export const fieldWith = (text: string): Field => ({ text, caret: text.length });

/** Length of the character before the caret, in UTF-16 units; 0 at the start. */
export const lengthBefore = ({ text, caret }: Field): number => {
  if (caret === 0) return 0;
  return caret > 1 && (text.codePointAt(caret - 2) ?? 0) > 0xffff ? 2 : 1;
};

/** Length of the character at the caret, in UTF-16 units; 0 at the end. */
export const lengthAfter = ({ text, caret }: Field): number => {
  if (caret >= text.length) return 0;
  return (text.codePointAt(caret) ?? 0) > 0xffff ? 2 : 1;
};

/** A paste as one line: its line ends and tabs are blanks, other control characters go. */
export const asOneLine = (text: string): string =>
  text
    .replace(/[\r\n\t]+/g, ' ')
    .replace(/\p{Cc}/gu, '')
    .trim();

const insert = ({ text, caret }: Field, added: string): Field =>
  text.length + added.length > maxLength
    ? { text, caret }
    : { text: text.slice(0, caret) + added + text.slice(caret), caret: caret + added.length };

const removeFrom = ({ text }: Field, start: number, length: number): Field => ({
  text: text.slice(0, start) + text.slice(start + length),
  caret: start,
});

const move = (field: Field, by: number): Field => ({ ...field, caret: field.caret + by });

/** The field after a key; keys that edit nothing leave it as it was. */
export const editField = (field: Field, key: Key): Field => {
  switch (key.kind) {
    case 'text':
      return insert(field, key.text);
    case 'paste':
      return insert(field, asOneLine(key.text));
    case 'backspace':
      return removeFrom(field, field.caret - lengthBefore(field), lengthBefore(field));
    case 'delete':
      return removeFrom(field, field.caret, lengthAfter(field));
    case 'left':
      return move(field, -lengthBefore(field));
    case 'right':
      return move(field, lengthAfter(field));
    case 'home':
      return { ...field, caret: 0 };
    case 'end':
      return fieldWith(field.text);
    case 'ctrl':
      return key.letter === 'u' ? removeFrom(field, 0, field.caret) : field;
    default:
      return field;
  }
};
