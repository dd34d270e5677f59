import { writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { newHome } from '../helpers/program.ts';
import { sheetText } from '../helpers/sheet-text.ts';

const home = newHome();

const saved = (name: string, text: string): string => {
  const path = join(home.folder, name);
  writeFileSync(path, text);
  return path;
};

const good = saved('good.yaml', sheetText());
// “materials:” is its line 6: the two slips stand in lines 7 and 14.
const bad = saved('bad.yaml', sheetText(['{name: Soda}', '{nam: Soda}'], ['600 g', '600 q']));

describe('check', () => {
  it('answers 0 where nothing is to mend', () => {
    expect(home.run(['check', good])).toMatchObject({
      status: 0,
      stdout: `${good}: Plain powder, revision 1: nothing to mend.\n`,
      stderr: '',
    });
  });

  it('answers 1 and names each problem with its place and its mend', () => {
    const { status, stdout } = home.run(['check', bad]);
    expect(status).toBe(1);
    const places = [...stdout.matchAll(/^.*bad\.yaml:(\d+):(\d+) error ([\w-]+): .+\n {4}\S/gm)];
    expect(places.map(([, line, , code]) => [line, code])).toEqual(
      expect.arrayContaining([
        ['7', 'unknown-key'],
        ['14', 'unknown-unit'],
      ]),
    );
  });

  it('checks each of several sheets; the worst status counts', () => {
    const missing = join(home.folder, 'nowhere.yaml');
    const { status, stdout } = home.run(['check', good, bad, missing]);
    expect(status).toBe(3);
    expect(stdout).toContain(`${good}: Plain powder`);
    expect(stdout).toContain(`${missing}: there is no such file.`);
  });

  it('prints the same as JSON', () => {
    const { status, stdout } = home.run(['check', '--json', bad]);
    expect(status).toBe(1);
    expect(JSON.parse(stdout)).toMatchObject([{ path: bad, status: 1 }]);
  });
});
