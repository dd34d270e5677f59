import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { csvObjects } from '../helpers/read-csv.ts';
import { makeScrub, scrubPassphrase } from '../helpers/scrub.ts';

describe('a closed batch', () => {
  const { home, folder, batch } = makeScrub();
  const addend = (...more: readonly string[]): readonly string[] => [
    'addend',
    batch,
    '--by',
    'Ann Example',
    ...more,
  ];
  // Invented.
  const packing = addend('--kind', 'packing', '--text', 'Six jars, one box.');

  it('is added to under a passphrase, on a pipe too', () => {
    const { status, stdout, stderr } = home.run(packing, [scrubPassphrase]);
    expect({ status, stderr }).toEqual({ status: 0, stderr: '' });
    expect(stdout).toContain(`Added to ${batch} and signed: packing.\n`);
    expect(readFileSync(join(folder, 'addenda', '001.json'), 'utf8')).toContain('Six jars');
    expect(home.run(['verify', batch])).toMatchObject({ status: 0 });
    expect(home.run(['verify', batch]).stdout).toContain('Ann Example added number 1: packing');
    const table = home.run(['export', batch, '--as', 'csv', '--to', '-']).stdout;
    expect(csvObjects(table).filter(row => row['kind'] === 'addendum')).toMatchObject([
      { what: 'packing', text: 'Six jars, one box.' },
    ]);
  });

  it('is not added to by a wrong passphrase, nor without one', () => {
    expect(home.run(packing, ['not the passphrase']).status).toBe(1);
    expect(home.run(packing).status).toBe(4);
  });

  it('takes known kinds and counted deviations only', () => {
    expect(home.run(addend('--kind', 'poem', '--text', 'Salt.')).status).toBe(2);
    const assess = addend('--kind', 'assessment', '--text', 'No harm.');
    expect(home.run([...assess, '--deviation', 'first']).status).toBe(2);
    const { status, stderr } = home.run([...assess, '--deviation', '1'], [scrubPassphrase]);
    expect(status).toBe(1);
    expect(stderr).toContain('It has none.');
  });

  it('is not there under another number', () => {
    const wrong = ['addend', 'P-LSS-1999-001', '--kind', 'packing', '--text', 'Six jars.'];
    expect(home.run(wrong).status).toBe(3);
  });

  it('is released, then rejected, by signature', () => {
    const sign = (meaning: string) =>
      home.run(['sign', batch, '--as', meaning, '--by', 'Ann Example'], [scrubPassphrase]);
    expect(sign('released').status).toBe(0);
    expect(home.run([]).stdout).toMatch(/closed \d{4}-\d\d-\d\d, released, made by Ann Example/);
    expect(sign('rejected by').status).toBe(0);
    expect(home.run([]).stdout).toMatch(/closed \d{4}-\d\d-\d\d, rejected, made by Ann Example/);
    expect(home.run(['verify', batch]).stdout).toContain('The batch is rejected, by Ann Example');
  });
});
