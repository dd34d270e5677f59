/** Over-pours and slips, walked in a real pseudo-terminal from the reading to the signed record. */
import { spawnSync } from 'node:child_process';
import { beforeAll, expect, test } from 'vitest';
import { program } from '../helpers/program.ts';
import { tempDir } from '../helpers/temp-dir.ts';
import { pause } from './harness.ts';
import {
  homeIn,
  inOneChunk,
  journalIn,
  onScreen,
  questionsInLines,
  recordIn,
  waitForQuestion,
  walk,
} from './walk.ts';

// Eight materials, of which the third is poured over by 4 %; all lots and numbers are invented.
const args = [
  'run',
  'tests/fixtures/sheets/rosemary-soak.yaml',
  '--practice',
  '--by',
  'Ines Okafor',
];

const toTheOverPour = [
  '', // begin
  '780.4', // the empty bowl
  'EPS-1',
  '979.6',
  'BIC-2',
  '2249.8', // not tared: 1760.0 g stood on the scale
  'yes',
  '489.8',
  'forgot to tare',
  'SEA-3',
  '382.0', // 367.3 g is the target
];

const toTheTopUp = [
  'stretch',
  'hand slipped',
  'S-1', // the same lot of Epsom salt
];

const toTheEnd = [
  '60.0', // 29.0 g are to be topped up: over again
  'SEA-3', // a scanned code presses nothing
  'stretch',
  'hand slipped again',
  'C-2',
  '24.9',
  'A-3',
  '4.0',
  'CIT-4',
  '257.3',
  'KAO-5',
  '180.13',
  'OAT-6',
  '154.40',
  'ROS-7',
  '30.88',
  'PEP-8',
  '20.59',
  '', // mixed
  '25', // good
  '0', // rejected
  '0', // samples
  '0', // left over
  '0', // crumbs
  '101.2',
  '101.7',
  'close',
  'correct horse',
  'correct horse',
  '',
];

const lines = [...toTheOverPour, ...toTheTopUp, ...toTheEnd];

const verify = (folder: string) =>
  spawnSync(process.execPath, [program, 'verify', `P-RFS-${year()}-001`], {
    env: { ...process.env, ...homeIn(folder) },
    encoding: 'utf8',
  });
const year = (): string => String(new Date().getFullYear());

const plain = tempDir();
let questions: readonly string[] = [];

beforeAll(() => {
  questions = questionsInLines(plain, args, lines);
});

const ways = ['take back', 'stretch', 'pieces', 'proportion', 'accept', 'scrap', 'mistyped'];

for (const [columns, rows] of [
  [80, 24],
  [60, 20],
] as const) {
  test.concurrent(`finishes a good batch after over-pouring the third of eight materials at ${columns}×${rows}`, async context => {
    const folder = tempDir();
    const running = onScreen(context, folder, args, [columns, rows]);
    const at = toTheOverPour.length;
    await walk(running, questions, toTheOverPour);
    await waitForQuestion(running, questions[at] ?? '');
    const screen = running.screen().replaceAll('\u202f', ' ');
    for (const word of ways) expect(screen).toMatch(new RegExp(`^${word} .*\\S`, 'm'));
    expect(screen).toContain('read 382.0 g net');
    expect(screen).toContain('window 363.7 g to 371.0 g');
    expect(screen).toContain('2.96 % bigger, 2 521.5 g, 24 pieces');
    await walk(running, questions.slice(at), [...toTheTopUp, ...toTheEnd]);
    expect((await running.exit).exitCode).toBe(0);
    expect(recordIn(folder)).toBe(recordIn(plain));
    expect(verify(folder)).toMatchObject({ status: 0 });
  }, 180_000);
}

test.concurrent('shows the top-ups, the new targets and the new size after a stretch', async context => {
  const folder = tempDir();
  const before = [...toTheOverPour, ...toTheTopUp];
  const running = onScreen(context, folder, args, [80, 24]);
  await walk(running, questions, before);
  const screen = await running.waitFor('Add 29.0 g more');
  expect(screen).toContain('batch +2.96 %, 24 pieces');
  expect(screen).toMatch(/NOW +1 Epsom salt .*add 29\.0 g/);
  expect(screen).toMatch(/under +2 Sodium bicarbonate .*add 14\.5 g/);
  expect(screen).toMatch(/4 Citric acid.* 252\.1 g {2}to add/);
  expect(screen).toMatch(/^help.* put back/m);
  await pause(400);
  await inOneChunk(running, 'put back');
  const after = await running.waitFor('The batch is what it was');
  expect(after).not.toContain('+2.96 %');
  for (const word of ways) expect(after).toMatch(new RegExp(`^${word} `, 'm'));
}, 60_000);

test.concurrent('goes on at the very gram after a kill in the middle of a top-up', async context => {
  const folder = tempDir();
  const before = [...toTheOverPour, ...toTheTopUp, '15.0'];
  const running = onScreen(context, folder, args, [80, 24]);
  await walk(running, questions, before);
  await running.waitFor('Add 14.0 g more');
  const journal = journalIn(folder);
  running.signal('SIGKILL');
  await running.exit;
  const again = onScreen(context, folder, ['resume', `P-RFS-${year()}-001`], [80, 24]);
  const screen = await again.waitFor('Add 14.0 g more');
  expect(screen).toContain('step 1 of 10');
  expect(screen).toContain('batch +2.96 %, 24 pieces');
  expect(journalIn(folder).startsWith(journal)).toBe(true);
  await pause(400);
  await inOneChunk(again, '29.0');
  await again.waitFor('Take Sodium bicarbonate');
  expect(again.screen()).toMatch(/done +1 Epsom salt +1\u202f008\.6 g/);
}, 60_000);

test.concurrent('does not take what came before the ways out could be read', async context => {
  const folder = tempDir();
  const before = toTheOverPour.slice(0, -1);
  const running = onScreen(context, folder, args, [80, 24]);
  await walk(running, questions, before);
  await running.waitFor('Weigh 367.3 g');
  await pause(400);
  running.send('382.0\rscrap\r');
  await running.waitFor('not used');
  expect(running.screen()).toMatch(/^stretch /m);
  expect(running.screen()).toContain('what to do:');
}, 60_000);
