import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { newHome } from '../helpers/program.ts';

const home = newHome();
const cedar = 'tests/fixtures/sheets/cedar-domes.yaml';
const tartlets = 'sheets/orange-tartlets.yaml';
const run = (...args: readonly string[]) => home.run(['print', ...args]);

describe('print', () => {
  it('writes the sheets to a file, each at its size, and tells findings apart', () => {
    const file = join(home.folder, 'day.html');
    const { status, stdout, stderr } = run(`${tartlets}=48`, cedar, '--to', file);
    expect({ status, stdout }).toEqual({ status: 0, stdout: `${file} is written.\n` });
    expect(stderr).toContain('scales-assumed');
    const page = readFileSync(file, 'utf8');
    expect(page).toContain('48 × tartlet');
    expect(page).toContain('36 × dome');
    expect(page).toContain('Parfum');
    expect(page).not.toMatch(/<script|\b(?:src|href)=|url\(|@import/i);
  });

  it('writes to standard output, with the sizes of plan', () => {
    for (const size of [
      ['--pieces', '48'],
      ['--factor', '4/3'],
      ['--have', 'citric acid=1.3 kg'],
    ]) {
      const { status, stdout } = run(cedar, ...size, '--to', '-');
      expect(status).toBe(0);
      expect(stdout).toMatch(/^<!doctype html>[\s\S]*<\/html>\n$/);
    }
  });

  it('prints nothing that cannot be made', () => {
    const { status, stdout, stderr } = run(`${cedar}=9999`, '--to', '-');
    expect({ status, stdout }).toEqual({ status: 1, stdout: '' });
    expect(stderr).toContain('vessel-overflows');
  });

  it('answers 2 without a place to write to, 3 for a sheet or a folder that is not there', () => {
    expect(run(cedar)).toMatchObject({ status: 2, stdout: '' });
    expect(run('nowhere.yaml', '--to', '-')).toMatchObject({ status: 3, stdout: '' });
    const { status, stderr } = run(cedar, '--to', join(home.folder, 'no', 'folder.html'));
    expect(status).toBe(3);
    expect(stderr).toContain('cannot be written');
  });

  it('has a help that fits 80 columns', () => {
    const { status, stdout } = home.run(['print', '--help']);
    expect(status).toBe(0);
    expect(stdout.split('\n').filter(line => line.length > 80)).toEqual([]);
  });
});
