import { expect, test } from 'vitest';
import { harmless } from '../../../src/core/dialogue/harmless.ts';
import { cellWidth, cutTo, fillTo, wrapTo } from '../../../src/ui/view/cells.ts';
import { largeDigits } from '../../../src/ui/view/digits.ts';
import { fieldLine } from '../../../src/ui/view/field-line.ts';
import { paperFor } from '../../../src/ui/view/paper.ts';
import { flow, row, textOf } from '../../../src/ui/view/row.ts';
import { questionOf } from '../../helpers/fake-conversation.ts';

test.each([
  ['abc', 3],
  ['1\u202f234.5 g', 9],
  ['\u6c34', 2],
  ['e\u0301', 1],
  ['\ud83d\ude00', 2],
  ['', 0],
])('measures %j as %i cells', (text, cells) => {
  expect(cellWidth(text)).toBe(cells);
});

test('cuts at a cell, never within a character', () => {
  expect(cutTo('Sodium bicarbonate', 9)).toBe('Sodium b\u2026');
  expect(cutTo('\u6c34\u6c34\u6c34', 4)).toBe('\u6c34\u2026');
  expect(cutTo('abc', 0)).toBe('');
  expect(fillTo('\u6c34\u6c34\u6c34', 4)).toBe('\u6c34\u2026 ');
  expect(fillTo('9', 3, 'right')).toBe('  9');
});

test('wraps without parting a number from its unit', () => {
  expect(wrapTo('Add 19.6 g more', 9)).toEqual(['Add', '19.6 g', 'more']);
  expect(wrapTo('abcdefghij', 4)).toEqual(['abcd', 'efgh', 'ij']);
  expect(wrapTo('', 4)).toEqual(['']);
});

test('flows pieces without breaking one', () => {
  const pieces = ['window 1 g', 'scale big', 'lot A'].map(text => row(text));
  expect(flow(pieces, 24).map(textOf)).toEqual(['window 1 g   scale big', 'lot A']);
});

test('shows half a character and marks of direction by their code points', () => {
  expect(harmless('a\ud800b\u2067c')).toBe('a<U+D800>b<U+2067>c');
});

test('draws figures of equal height and width, and nothing but figures', () => {
  const rows = largeDigits('1\u202f234.5', '#') ?? [];
  expect(rows).toHaveLength(5);
  expect(new Set(rows.map(each => each.length)).size).toBe(1);
  expect(largeDigits('12 g', '#')).toBeUndefined();
});

const paper = paperFor({ columns: 30, rows: 20 }, false, { epochMs: 0, offset: 0 });

test('keeps the caret of a long field in view', () => {
  const text = '0123456789'.repeat(4);
  const line = fieldLine(questionOf(), { text, caret: 40 }, undefined, paper);
  expect(line.caret).toBeLessThan(30);
  expect(line.label + line.text).toHaveLength(29);
  expect(line.text.endsWith('789')).toBe(true);
  const start = fieldLine(questionOf(), { text, caret: 0 }, undefined, paper);
  expect(start.caret).toBe('reading: '.length);
});

test('never shows a secret', () => {
  const question = questionOf({ field: 'secret', kind: 'passphrase' });
  expect(fieldLine(question, { text: 'hunter2', caret: 7 }, undefined, paper).text).toBe('*******');
});
