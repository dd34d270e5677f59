import { readdirSync, readFileSync } from 'node:fs';
import { describe, expect, test } from 'vitest';
import { problemTable } from '../../../src/core/sheet/problem.ts';
import { readSheet } from '../../../src/core/sheet/read-sheet.ts';

/** Each begins with what is expected of it: the place, words of the mend, and the change that follows the mend. */
const folder = new URL('../../fixtures/bad-sheets/', import.meta.url);
const files = readdirSync(folder);
const textOf = (file: string): string => readFileSync(new URL(file, folder), 'utf8');

const codes = Object.keys(problemTable);

// Of codes that a file's name begins with, the longest: there may be several sheets for one code.
const codeOf = (file: string): string =>
  codes
    .filter(code => file.startsWith(`${code}.`) || file.startsWith(`${code}-`))
    .sort((a, b) => b.length - a.length)[0] ?? file;

const unquoted = (text = '""'): string => JSON.parse(text) as string;

const placeOf = (text: string) => /^# expect (\d+:\d+)$/m.exec(text)?.[1];
const wordsOf = (text: string) => [...text.matchAll(/^# says (".*")$/gm)].map(m => unquoted(m[1]));

const mended = (text: string): string => {
  const body = text.search(/^[^#]/m);
  return [...text.matchAll(/^# change (".*?[^\\]") to (".*")$/gm)].reduce((sheet, [, old, now]) => {
    expect(sheet).toContain(unquoted(old));
    return sheet.replace(unquoted(old), () => unquoted(now));
  }, text.slice(body));
};

describe('a bad sheet', () => {
  test.each(files)('%s is answered with its code and place, and nothing else', file => {
    const { problems } = readSheet(textOf(file));
    const found = problems.map(each => `${each.code} ${each.line}:${each.column}`);
    expect(found).toContain(`${codeOf(file)} ${placeOf(textOf(file))}`);
    expect(new Set(problems.map(each => each.code))).toEqual(new Set([codeOf(file)]));
  });

  test.each(files)('%s reads without any problem once its mend is followed', file => {
    const mends = readSheet(textOf(file)).problems.map(each => each.mend);
    for (const words of wordsOf(textOf(file))) expect(mends.join('\n')).toContain(words);
    expect(readSheet(mended(textOf(file)))).toMatchObject({ ok: true, problems: [] });
  });

  test('stands here for every code that reading a sheet can give', () => {
    const shown = new Set(files.map(codeOf));
    const unshown = Object.entries(problemTable).filter(
      ([code, kind]) => kind.finder === 'check' && !shown.has(code),
    );
    expect(unshown).toEqual([]);
  });
});
