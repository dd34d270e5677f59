import { spawnSync } from 'node:child_process';
import { describe, expect, it } from 'vitest';
import { newHome, program } from '../helpers/program.ts';
import { scrubSheet } from '../helpers/scrub.ts';

const home = newHome();
const commands = ['check', 'plan', 'run', 'resume', 'sign', 'verify', 'export'];
const escape = '\u001b';

describe('help', () => {
  it.each(['', ...commands])('of tarebook %s fits 80 columns', command => {
    const { status, stdout, stderr } = home.run([command, '--help'].filter(Boolean));
    expect({ status, stderr }).toEqual({ status: 0, stderr: '' });
    expect(stdout.split('\n').filter(line => line.length > 80)).toEqual([]);
    expect(stdout).not.toContain(escape);
  });

  it('names the sheets of its examples, which are there', () => {
    const { stdout } = home.run(['--help']);
    for (const [sheet] of stdout.matchAll(/sheets\/\S+\.yaml/g)) {
      expect(home.run(['check', sheet]).status).toBe(0);
    }
  });

  it('prints the version alone', () => {
    expect(home.run(['--version']).stdout).toMatch(/^\d+\.\d+\.\d+\n$/);
  });
});

describe('a slip on the command line', () => {
  it.each([
    [['chek', scrubSheet], 'check'],
    [['plan', scrubSheet, '--piece', '3'], '--pieces'],
    [['check'], 'sheet'],
    [['check', scrubSheet, '--pieces', '3'], '--pieces'],
    [['export', 'P-X-2027-001', '--as', 'pdf', '--to', '-'], 'html'],
    [['sign', 'P-X-2027-001', '--as', 'baked by'], 'reviewed by'],
  ])('%j answers 2 and helps on', (args, hint) => {
    const { status, stdout, stderr } = home.run(args);
    expect({ status, stdout }).toEqual({ status: 2, stdout: '' });
    expect(stderr).toContain(hint);
    expect(stderr).not.toContain('    at ');
  });
});

describe('without a terminal', () => {
  it.each([[['run', scrubSheet, '--practice']], [['resume', 'P-LSS-2027-001']]])(
    '%j answers 2, names --plain and writes no escape sequence',
    args => {
      const { status, stdout, stderr } = home.run(args);
      expect({ status, stdout }).toEqual({ status: 2, stdout: '' });
      expect(stderr).toContain('--plain');
      expect(stderr).not.toContain(escape);
    },
  );

  it('the home is a list without an escape sequence', () => {
    const { status, stdout, stderr } = home.run([]);
    expect({ status, stderr }).toEqual({ status: 0, stderr: '' });
    expect(stdout).toContain('Lemon salt scrub');
    expect(stdout).not.toContain(escape);
  });
});

describe('what is not there', () => {
  it.each([
    [['check', 'nowhere.yaml']],
    [['plan', 'nowhere.yaml']],
    [['run', 'nowhere.yaml', '--plain']],
    [['resume', 'LSS-2027-001', '--plain']],
    [['sign', 'LSS-2027-001', '--as', 'made by', '--by', 'Ann Example']],
    [['verify', 'LSS-2027-001']],
    [['export', 'LSS-2027-001', '--as', 'json', '--to', '-']],
  ])('%j answers 3', args => {
    const { status, stdout, stderr } = home.run(args);
    expect(status).toBe(3);
    expect(`${stdout}${stderr}`).toMatch(/\S/);
    expect(stderr).not.toContain('    at ');
  });

  it.each([
    ['above the workshop', '../x'],
    ['the workshop', '.'],
    ['nothing', ''],
    ['a path behind the mark of practice', 'P-../../etc'],
    ['very long', 'A'.repeat(5000)],
    ['an escape sequence', 'LSS-2027-001\u001b[2J'],
  ])('a batch whose number is %s is refused without a fault', (_, batch) => {
    for (const args of [
      ['resume', batch, '--plain'],
      ['export', batch, '--as', 'json', '--to', '-'],
      ['sign', batch, '--as', 'made by', '--by', 'Ann Example'],
    ]) {
      const { status, stderr } = home.run(args);
      expect([2, 3]).toContain(status);
      expect(stderr).not.toContain(escape);
    }
  });
});

describe('a reader that goes away', () => {
  it('is no fault', () => {
    const { stderr, stdout } = spawnSync(
      'bash',
      [
        '-c',
        `'${process.execPath}' '${program}' plan ${scrubSheet} | head -1; echo "\${PIPESTATUS[0]}"`,
      ],
      { env: home.env, encoding: 'utf8' },
    );
    expect(stderr).toBe('');
    expect(stdout.split('\n').at(-2)).toBe('0');
  });
});
