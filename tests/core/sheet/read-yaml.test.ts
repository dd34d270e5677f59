import { describe, expect, test } from 'vitest';
import { readYaml } from '../../../src/core/sheet/read-yaml.ts';
import { told } from '../../helpers/sheet-text.ts';

const faults = (text: string): readonly string[] => told(readYaml(text).problems);

const hundred = (text: string): string => text.repeat(100);

describe('reading YAML', () => {
  test('keeps every value as the text that was typed', () => {
    const { node } = readYaml('a: 12.50\nb: yes\nc: 010\nd: ~\ne: 2027-01-02\nf: "12"\n');
    expect(node).toMatchObject({
      kind: 'map',
      entries: ['12.50', 'yes', '010', '~', '2027-01-02', '12'].map(text => ({ value: { text } })),
    });
  });

  test('makes one line of text over several', () => {
    const { node } = readYaml('- a\n  b\n- |\n  c\n  d\n- "e\\tf\\ng"\n');
    expect(node).toMatchObject({
      items: [{ text: 'a b' }, { text: 'c d' }, { text: 'e f g' }],
    });
  });

  test('places keys and values by line and column, with Windows line ends too', () => {
    expect(readYaml('a: 1\r\nbc: {d: 2}\r\n').node).toMatchObject({
      place: { line: 1, column: 1 },
      entries: [
        { key: 'a', place: { line: 1, column: 1 }, value: { place: { line: 1, column: 4 } } },
        {
          key: 'bc',
          place: { line: 2, column: 1 },
          value: {
            place: { line: 2, column: 5 },
            isInBraces: true,
            entries: [{ key: 'd', place: { line: 2, column: 6 } }],
          },
        },
      ],
    });
  });

  test('takes a byte order mark at the very start only, and does not count it', () => {
    expect(readYaml('\uFEFFa: 1').node).toMatchObject({ place: { line: 1, column: 1 } });
    expect(faults('a: 1\nb: x\uFEFFy')).toEqual(['control-character 2:5']);
  });

  test.each([
    ['NUL', 'a\u0000b'],
    ['a bell', 'a\u0007b'],
    ['a lone carriage return', 'a\rb'],
    ['DEL', 'a\u007fb'],
    ['a C1 control', 'a\u009bb'],
    ['a control of writing direction', 'a\u202eb'],
    ['an isolate', 'a\u2066b'],
    ['half a surrogate pair', 'a\ud800b'],
  ])('refuses %s', (_, text) => {
    expect(faults(`x: 1\ny: "${text}"`)).toEqual(['control-character 2:6']);
  });

  test('refuses such a character behind an escape', () => {
    expect(faults(String.raw`y: "a\x1b[2J"`)).toEqual(['control-character 1:4']);
    expect(faults(String.raw`"\u202e": b`)).toEqual(['control-character 1:1']);
  });

  test.each([
    ['an anchor', 'a: &x 1', 'alias-or-tag 1:4'],
    ['an alias', 'a: *x', 'alias-or-tag 1:4'],
    ['a tag', 'a: !!map {b: 1}', 'alias-or-tag 1:4'],
    ['a tag of a key', 'b: {!x a: 1}', 'not-yaml 1:5'],
    ['an anchor where nothing stands', 'a: &x', 'alias-or-tag 1:4'],
    ['a tab that indents', 'a:\n\tb: 1', 'not-yaml 2:1'],
    ['a second document', 'a: 1\n---\nb: 1', 'not-yaml 2:1'],
    ['a key that is a list', '? [a]\n: b', 'not-yaml 1:3'],
    ['a bracket that is not closed', 'a: [b', 'not-yaml 1:6'],
    ['a repeated key', 'a: 1\nb: 2\na: 3', 'repeated-key 3:1'],
    ['a merged map', '<<: {a: 1}\na: *x', 'alias-or-tag 2:4'],
  ])('refuses %s', (_, text, expected) => {
    expect(faults(text)).toContain(expected);
  });

  test.each([
    ['too long', 'a'.repeat(300_000)],
    ['of too many lines', '\n'.repeat(6000)],
    ['of a line too long', `a: ${'b'.repeat(3000)}`],
    ['nested in brackets', '['.repeat(1000)],
    ['nested in brackets over lines', '[\n'.repeat(1000)],
    ['nested in dashes', '- '.repeat(900)],
    ['nested in keys', 'a: '.repeat(600)],
    ['indented too far', `a:\n${' '.repeat(200)}b: 1`],
    [
      'nested by indentation',
      Array.from({ length: 90 }, (_, i) => `${' '.repeat(i)}a:`).join('\n'),
    ],
  ])('refuses text %s before it is parsed', (_, text) => {
    expect(readYaml(text).problems.map(each => each.code)).toEqual(['not-text']);
  });

  test('answers nothing, and no problem, for a file without content', () => {
    expect(readYaml('')).toEqual({ problems: [] });
    expect(readYaml('# only a comment\n')).toEqual({ problems: [] });
  });

  test('names one slip of a line once', () => {
    expect(faults(`a: 1\n  b: 2\n${hundred('# x\n')}`)).toHaveLength(1);
  });
});
