import { readdirSync, readFileSync, statSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { newHome, workshopOf } from '../helpers/program.ts';
import { csvObjects } from '../helpers/read-csv.ts';
import { makeScrub, scrubLines, scrubPassphrase, scrubSheet } from '../helpers/scrub.ts';

describe('a signed record', () => {
  const { home, folder, batch } = makeScrub();
  const recordFile = join(folder, 'record.json');

  it('verifies by number, by folder and with its whole room', () => {
    for (const named of [batch, folder, join(workshopOf(home), 'practice')]) {
      const { status, stdout, stderr } = home.run(['verify', named]);
      expect({ status, stderr }).toEqual({ status: 0, stderr: '' });
      expect(stdout).toMatch(/: good\.\n$/);
    }
  });

  it('verifies as JSON', () => {
    const { status, stdout } = home.run(['verify', '--json', batch]);
    expect(status).toBe(0);
    expect(JSON.parse(stdout)).toMatchObject([{ where: folder, verdict: 'good', status: 0 }]);
  });

  it('is exported as its very bytes', () => {
    const { status, stdout } = home.run(['export', batch, '--as', 'json', '--to', '-']);
    expect(status).toBe(0);
    expect(stdout).toBe(readFileSync(recordFile, 'utf8'));
  });

  it('is exported as one page that loads nothing', () => {
    const page = join(home.folder, 'page.html');
    const { status, stdout } = home.run(['export', batch, '--as', 'html', '--to', page]);
    expect({ status, stdout }).toEqual({ status: 0, stdout: `${page} is written.\n` });
    const html = readFileSync(page, 'utf8');
    expect(html).toContain(batch);
    expect(html).not.toMatch(/<script|\b(?:src|href)=|url\(|@import/i);
  });

  it('is exported as a table', () => {
    const { status, stdout } = home.run(['export', batch, '--as', 'csv', '--to', '-']);
    expect(status).toBe(0);
    const rows = csvObjects(stdout);
    expect(new Set(rows.map(row => `${row['batch']} ${row['practice']}`))).toEqual(
      new Set([`${batch} yes`]),
    );
    expect(rows[0]).toMatchObject({ kind: 'batch', what: 'Lemon salt scrub', total_g: '1481.7' });
    expect(rows.at(-1)).toMatchObject({ kind: 'signature', what: 'made by' });
  });

  it('takes a second signature with another meaning, once', () => {
    const sign = ['sign', batch, '--as', 'reviewed by', '--by', 'Ben Example'];
    const passphrase = 'another horse';
    expect(home.run(sign, [passphrase, passphrase])).toMatchObject({ status: 0, stderr: '' });
    expect(home.run(['verify', batch]).stdout).toContain('Ben Example signed: reviewed by');
    expect(home.run(sign, ['not the passphrase']).status).toBe(1);
    expect(home.run(sign).status).toBe(4);
    expect(home.run(['verify', batch]).status).toBe(0);
  });

  it('answers 1 when a digit of it was changed', () => {
    const bytes = readFileSync(recordFile);
    const text = bytes.toString('utf8');
    writeFileSync(recordFile, text.replace('"massIn": "1481.7"', '"massIn": "1481.8"'));
    const { status, stdout } = home.run(['verify', batch]);
    writeFileSync(recordFile, bytes);
    expect(status).toBe(1);
    expect(stdout).toContain('FAILS');
    expect(home.run(['verify', batch]).status).toBe(0);
  });

  it('answers 3 for a record that cannot be read', () => {
    const bytes = readFileSync(recordFile);
    writeFileSync(recordFile, 'no record');
    const { status } = home.run(['verify', batch]);
    writeFileSync(recordFile, bytes);
    expect([1, 3]).toContain(status);
  });
});

const filesUnder = (folder: string): readonly string[] =>
  readdirSync(folder, { recursive: true, encoding: 'utf8' })
    .filter(name => statSync(join(folder, name)).isFile())
    .map(name =>
      name.replaceAll(/[\w-]{43}\.pem/g, 'KEY.pem').replaceAll(/P-LSS-\d{4}-\d{3}/g, 'BATCH'),
    )
    .sort();

describe('files', () => {
  const practice = 'tarebook/workshop/practice';
  const made = [
    `${practice}/batches/BATCH/journal.jsonl`,
    `${practice}/batches/BATCH/record.json`,
    `${practice}/batches/BATCH/record.sig.json`,
    `${practice}/ledger.jsonl`,
    `${practice}/register.jsonl`,
  ];
  const args = ['run', scrubSheet, '--practice', '--plain'];

  it('stay in the home, and nothing else is made', () => {
    const home = newHome();
    home.run(args, scrubLines);
    const data = ['tarebook/keys/KEY.pem', ...made].map(path => `.local/share/${path}`);
    expect(filesUnder(home.folder)).toEqual(['.config/tarebook/config.json', ...data].sort());
  });

  it('go where the environment says', () => {
    const at = newHome().folder;
    const home = newHome({
      XDG_DATA_HOME: join(at, 'data'),
      XDG_CONFIG_HOME: join(at, 'config'),
      TAREBOOK_KEYS: join(at, 'keys'),
    });
    home.run(args, scrubLines);
    expect(filesUnder(home.folder)).toEqual([]);
    const data = made.map(path => `data/${path}`);
    expect(filesUnder(at)).toEqual(['config/tarebook/config.json', ...data, 'keys/KEY.pem'].sort());
  });

  it('are the owner’s alone where they are private', () => {
    const home = newHome();
    home.run(args, scrubLines);
    const keys = join(home.folder, '.local/share/tarebook/keys');
    for (const name of readdirSync(keys)) {
      const path = join(keys, name);
      expect(statSync(path).mode & 0o777).toBe(0o600);
      expect(readFileSync(path, 'utf8')).toContain('ENCRYPTED PRIVATE KEY');
      expect(readFileSync(path, 'utf8')).not.toContain(scrubPassphrase);
    }
  });
});
