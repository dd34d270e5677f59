import * as fc from 'fast-check';
import { expect, test } from 'vitest';
import { forTextInput } from '../../../src/ui/feed.ts';
import type { Key } from '../../../src/ui/keys/decoder.ts';
import {
  editField,
  emptyField,
  type Field,
  fieldWith,
  maxLength,
} from '../../../src/ui/keys/field.ts';
import { cases, seed } from '../../helpers/cases.ts';

const text = (character: string): Key => ({ kind: 'text', text: character });

const after = (keys: readonly Key[], start: Field = emptyField): Field =>
  keys.reduce(editField, start);

test('takes characters in the order in which they come', () => {
  expect(after(Array.from('123.45', text))).toEqual({ text: '123.45', caret: 6 });
});

test('edits in the middle', () => {
  const keys: Key[] = [{ kind: 'left' }, { kind: 'backspace' }, text('7'), { kind: 'delete' }];
  expect(after(keys, fieldWith('123'))).toEqual({ text: '17', caret: 2 });
});

test('moves to both ends and clears what is before the caret', () => {
  const keys: Key[] = [{ kind: 'home' }, text('a'), { kind: 'end' }, text('z')];
  expect(after(keys, fieldWith('-'))).toEqual({ text: 'a-z', caret: 3 });
  expect(after([{ kind: 'ctrl', letter: 'u' }], { text: '12.5', caret: 2 })).toEqual({
    text: '.5',
    caret: 0,
  });
});

test('treats a character of two units as one', () => {
  expect(after([{ kind: 'backspace' }], fieldWith('a😀'))).toEqual(fieldWith('a'));
  expect(after([{ kind: 'left' }, { kind: 'delete' }], fieldWith('a😀'))).toEqual(fieldWith('a'));
});

test('takes a paste as one line without control characters', () => {
  expect(after([{ kind: 'paste', text: ' 12\r\n34\u0007\t5\n' }])).toEqual(fieldWith('12 34 5'));
});

test('takes no more than its length', () => {
  const full = fieldWith('x'.repeat(maxLength));
  expect(after([text('y')], full)).toEqual(full);
});

test('does nothing on keys that edit nothing', () => {
  const keys: Key[] = [{ kind: 'up' }, { kind: 'tab' }, { kind: 'ctrl', letter: 'a' }];
  expect(after(keys, fieldWith('1'))).toEqual(fieldWith('1'));
  expect(after([{ kind: 'backspace' }, { kind: 'left' }, { kind: 'delete' }])).toEqual(emptyField);
});

const anyKey: fc.Arbitrary<Key> = fc.oneof(
  fc.constantFrom('1', 'é', '😀').map(text),
  fc.constantFrom<Key>(
    { kind: 'left' },
    { kind: 'right' },
    { kind: 'home' },
    { kind: 'end' },
    { kind: 'backspace' },
    { kind: 'delete' },
    { kind: 'ctrl', letter: 'u' },
    { kind: 'paste', text: 'p q' },
  ),
);

test('keeps its caret inside the text and never within a character', () => {
  fc.assert(
    fc.property(fc.array(anyKey), keys => {
      const field = after(keys);
      expect(field.caret).toBeGreaterThanOrEqual(0);
      expect(field.caret).toBeLessThanOrEqual(field.text.length);
      // encodeURIComponent throws on half a character.
      expect(() => encodeURIComponent(field.text)).not.toThrow();
      expect(() => encodeURIComponent(field.text.slice(0, field.caret))).not.toThrow();
    }),
    { numRuns: cases(300), seed },
  );
});

/** What ink-text-input 6 does with a sequence, as read in its source: it counts UTF-16 units. */
const asTextInput = ({ text: value, caret }: Field, sequence: string): Field => {
  if (sequence === '\u001b[D') return { text: value, caret: Math.max(0, caret - 1) };
  if (sequence === '\u001b[C') return { text: value, caret: Math.min(value.length, caret + 1) };
  if (sequence === '\u007f') {
    return caret === 0
      ? { text: value, caret }
      : { text: value.slice(0, caret - 1) + value.slice(caret), caret: caret - 1 };
  }
  return {
    text: value.slice(0, caret) + sequence + value.slice(caret),
    caret: caret + sequence.length,
  };
};

test('says to ink-text-input what gives the same text and caret', () => {
  fc.assert(
    fc.property(fc.array(anyKey), keys => {
      let field = emptyField;
      for (const key of keys) {
        const there = forTextInput(key, field).reduce(asTextInput, field);
        field = editField(field, key);
        expect(there).toEqual(field);
      }
    }),
    { numRuns: cases(300), seed },
  );
});
