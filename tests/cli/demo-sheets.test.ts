import { readdirSync, readFileSync } from 'node:fs';
import { basename } from 'node:path';
import { describe, expect, it } from 'vitest';
import { newHome, practiceBatch } from '../helpers/program.ts';

const sheets = readdirSync('sheets').filter(name => name.endsWith('.yaml'));

/** What is typed for a whole practice batch of a demo sheet: names, lots and numbers are invented. */
const answersOf = (sheet: string): readonly string[] =>
  readFileSync(`tests/fixtures/answers/${sheet.replace('.yaml', '.txt')}`, 'utf8')
    .replace(/\n$/, '')
    .split('\n');

describe.each(sheets)('the demo sheet %s', name => {
  const sheet = `sheets/${name}`;

  it('has nothing to mend, also on the scales that are assumed', () => {
    const home = newHome();
    expect(home.run(['check', sheet])).toMatchObject({
      status: 0,
      stderr: '',
      stdout: expect.stringMatching(/nothing to mend\.\n$/),
    });
    const { status, stdout } = home.run(['plan', sheet, '--json']);
    expect(status).toBe(0);
    const { findings } = JSON.parse(stdout);
    expect(findings).toMatchObject([{ code: 'scales-assumed', severity: 'information' }]);
  });
});

describe.each(['calendula-balm.yaml', 'oat-bath-powder.yaml'])('a practice batch of %s', name => {
  it('is walked to a signed record that verifies', () => {
    const home = newHome();
    const lines = answersOf(name);
    const walk = home.run(['run', `sheets/${name}`, '--practice', '--plain'], lines);
    expect(walk).toMatchObject({ status: 0, stderr: '' });
    expect(walk.stdout).not.toContain('not done:');
    const { status, stdout } = home.run(['verify', basename(practiceBatch(home))]);
    expect({ status, stdout }).toMatchObject({
      status: 0,
      stdout: expect.stringMatching(/: good\.\n$/),
    });
  });
});
