import { readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { Ajv } from 'ajv';
import { describe, expect, test } from 'vitest';
import { parse } from 'yaml';
import { sheetSchema } from '../../../src/core/sheet/json-schema.ts';
import { readSheet } from '../../../src/core/sheet/read-sheet.ts';

const root = new URL('../../../', import.meta.url);
const published = new URL('sheets/batch-sheet.schema.json', root);
const read = (path: string): string => readFileSync(new URL(path, root), 'utf8');

const example = 'tests/fixtures/sheets/cedar-domes.yaml';
const demos = readdirSync(new URL('sheets/', root))
  .filter(name => name.endsWith('.yaml'))
  .map(name => `sheets/${name}`);

// An editor's view of a file: YAML 1.2 core, in which 12 is a number and ~ is null.
const accepts = new Ajv({ strict: true, allowUnionTypes: true, allErrors: true }).compile(
  sheetSchema,
);
const editorAccepts = (text: string): boolean => accepts(parse(text));

describe('the JSON Schema of a sheet', () => {
  test('is published as the description of a sheet makes it (UPDATE=1 writes it anew)', () => {
    const text = `${JSON.stringify(sheetSchema, null, 2)}\n`;
    if (process.env['UPDATE'] === '1') writeFileSync(published, text);
    expect(readFileSync(published, 'utf8')).toBe(text);
  });

  test.each([example, ...demos])('accepts %s', path => {
    editorAccepts(read(path));
    expect(accepts.errors).toBeNull();
  });

  test.each([
    ['a misspelt key', 'tolerance: 1 %', 'tolerence: 1 %'],
    ['a misspelt key of a step', 'amount: 62 %', 'amuont: 62 %'],
    ['a missing key', 'code: CDR', ''],
    ['a word that is no choice', 'contact: rinse-off', 'contact: mouth'],
    ['a count that is none', 'count: 36', 'count: 0'],
    ['a list where text belongs', 'for: Rest, covered.', 'for: [Rest, covered.]'],
    ['a step of no kind', '- do: Rub', '- rub: Rub'],
  ])('refuses %s', (_, right, wrong) => {
    const text = read(example);
    expect(text).toContain(right);
    expect(editorAccepts(text.replace(right, wrong))).toBe(false);
  });

  test('accepts a number where text is read, a bare tally, and one value where a list may stand', () => {
    const changed = read(example)
      .replace('tally: {weigh: 5}', 'tally:')
      .replace('wear: [dust mask, goggles]', 'wear: goggles')
      .replace('sheet: Cedar bath domes with whipped topping', 'sheet: 4711');
    expect(editorAccepts(changed)).toBe(true);
    expect(readSheet(changed)).toMatchObject({ ok: true, problems: [] });
  });
});

describe('a demo sheet', () => {
  test.each(demos)('%s names the schema in its first line and reads without a problem', path => {
    expect(read(path)).toMatch(/^# yaml-language-server: \$schema=\.\/batch-sheet\.schema\.json\n/);
    expect(readSheet(read(path))).toMatchObject({ ok: true, problems: [] });
  });
});
