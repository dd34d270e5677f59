/** A whole practice batch of the demo sheet `lemon-salt-scrub.yaml`: the lines of a fixture, all invented. */
import { readFileSync } from 'node:fs';
import { basename } from 'node:path';
import { type Home, newHome, practiceBatch } from './program.ts';

export const scrubSheet = 'sheets/lemon-salt-scrub.yaml';

/** From the maker's name to the end after signing. */
export const scrubLines: readonly string[] = readFileSync(
  'tests/fixtures/answers/lemon-salt-scrub.txt',
  'utf8',
)
  .replace(/\n$/, '')
  .split('\n');

export const scrubPassphrase = 'correct horse';

export interface Made {
  readonly home: Home;
  readonly folder: string;
  readonly batch: string;
}

/** Makes and signs it in a new home. */
export const makeScrub = (): Made => {
  const home = newHome();
  const { status, stdout, stderr } = home.run(
    ['run', scrubSheet, '--practice', '--plain'],
    scrubLines,
  );
  if (status !== 0) throw new Error(`${stdout}${stderr}`);
  const folder = practiceBatch(home);
  return { home, folder, batch: basename(folder) };
};
