import { readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { expect, test } from 'vitest';
import { createConversation } from '../../src/core/dialogue/converse.ts';
import { readSheet } from '../../src/core/sheet/read-sheet.ts';
import { createBench } from '../../src/workshop/bench.ts';
import { verifyBatch } from '../../src/workshop/verify/verify-batch.ts';
import { filesOf } from '../../src/workshop/workshop.ts';
import { workshopIn } from '../helpers/batch.ts';
import { tempDir } from '../helpers/temp-dir.ts';

// Invented: one line that wants a witness.
const sheetText = `sheet: Invented salt
code: SLT
revision: 1
makes: {piece: jar, count: 1, fill: 100 g}
tolerance: 1 %
materials:
  salt: {name: Salt, lot: none}
phases:
  - phase: Base
    vessel: {name: bowl, tare: 300 g}
    steps:
      - add: salt
        amount: 100 g
        witness: yes
`;

const made = async (...witnessing: readonly string[]) => {
  const folder = tempDir();
  const workshop = workshopIn(folder, { practice: true });
  const read = readSheet(sheetText);
  if (!read.ok) throw new Error('the sheet cannot be read');
  const bench = createBench({
    workshop,
    keysDir: join(folder, 'keys'),
    person: 'Ana',
    opening: { sheet: read.sheet, sheetText, size: { by: 'sheet' }, practice: true },
  });
  if (!bench.ok) throw new Error(bench.why);
  const one = createConversation(bench.value.bench);
  for (const line of ['', '', '100', ...witnessing]) await one.hear(line);
  return { one, workshop, release: bench.value.release };
};

const closing = ['close', 'correct horse', 'correct horse', ''];

test('a witness confirms with a passphrase of their own, and the key shows it', async () => {
  const { one, workshop, release } = await made('Bea', 'battery staple', 'battery staple');
  for (const line of closing) await one.hear(line);
  release();
  const { folder, journal } = filesOf(workshop, 'P-SLT-2027-001');
  expect(readFileSync(journal, 'utf8')).toContain('"witnessed"');
  const report = verifyBatch(folder);
  expect(report.verdict).toBe('good');
  expect(report.claims).toContainEqual(
    expect.objectContaining({ claim: 'witness', state: 'holds' }),
  );
  // Another name on the same signature.
  writeFileSync(
    join(folder, 'record.json'),
    readFileSync(join(folder, 'record.json'), 'utf8').replace(
      '"witness": "Bea"',
      '"witness": "Eva"',
    ),
  );
  expect(verifyBatch(folder).claims).toContainEqual(
    expect.objectContaining({ claim: 'witness', state: 'fails', code: 'unknown-key' }),
  );
});

test('nobody is a witness of their own work', async () => {
  const { one, release } = await made('Ana');
  expect(one.question().kind).toBe('witness');
  expect(one.said()[0]?.text).toContain('another person');
  release();
});

test('a wrong passphrase witnesses nothing', async () => {
  const { one, release } = await made('Bea', 'battery staple', 'battery stable');
  expect(one.question().kind).toBe('new-passphrase');
  release();
});
