/** The built program in a real pseudo-terminal: the same batch on the screen and line by line. */
import { execFileSync } from 'node:child_process';
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { expect, type TestContext, test } from 'vitest';
import { maker, signing, tartletsSheet, weighing } from '../helpers/tartlets.ts';
import { tempDir } from '../helpers/temp-dir.ts';
import { launch, pause, type Running } from './harness.ts';

const program = 'dist/tarebook.cjs';
const homeIn = (folder: string): Record<string, string> => ({
  TAREBOOK_WORKSHOP: join(folder, 'workshop'),
  TAREBOOK_KEYS: join(folder, 'keys'),
  XDG_CONFIG_HOME: join(folder, 'config'),
  XDG_DATA_HOME: join(folder, 'data'),
});

const runArgs = ['run', tartletsSheet, '--practice', '--by', maker];

/** The question that each line answers, as plain mode prints it. */
const inLines = (folder: string): readonly string[] =>
  execFileSync(process.execPath, [program, ...runArgs, '--plain'], {
    input: [...weighing, ...signing].map(line => `${line}\n`).join(''),
    env: { ...process.env, ...homeIn(folder), LC_ALL: 'C.UTF-8' },
    encoding: 'utf8',
  })
    .split('\n> ')
    .slice(0, -1)
    .map(part => (part.split('\n').at(-1) ?? '').replace(/^\[.*?\] /, ''));

const batchFolder = (folder: string): string => {
  const batches = join(folder, 'workshop', 'practice', 'batches');
  return join(batches, execFileSync('ls', [batches], { encoding: 'utf8' }).split('\n')[0] ?? '');
};

/** The record without times and what follows from them. */
const recordIn = (folder: string): string =>
  readFileSync(join(batchFolder(folder), 'record.json'), 'utf8').replaceAll(
    /"(at|hash|begun|closed|found)": "[^"]*"/g,
    '"$1": "…"',
  );

const journalIn = (folder: string): string =>
  readFileSync(join(batchFolder(folder), 'journal.jsonl'), 'utf8');

const flat = (text: string): string => text.replaceAll(/\s+/g, ' ');

const waitForQuestion = async (running: Running, question: string): Promise<void> => {
  // The first words are enough: at 60 columns the end of a long question gives way.
  const wanted = flat(question).slice(0, 24);
  for (let tries = 0; !flat(running.screen()).includes(wanted); tries += 1) {
    if (tries > 1500) throw new Error(`never asked “${wanted}”:\n${running.screen()}`);
    await pause(15);
  }
};

const onScreen = (
  { onTestFinished }: TestContext,
  folder: string,
  [columns, rows]: readonly [number, number],
): Running => {
  const running = launch({ args: [program, ...runArgs], columns, rows, env: homeIn(folder) });
  onTestFinished(async () => {
    running.signal('SIGKILL');
    await running.exit;
  });
  return running;
};

type Hand = (running: Running, line: string) => Promise<void>;
const inOneChunk: Hand = async (running, line) => running.send(`${line}\r`);
const keyByKey: Hand = (running, line) => running.type(`${line}\r`, 4);

// What follows an accepted line within 300 ms is set aside, and what is typed within 400 ms of a
// question that takes a deliberate answer does not count: a person is slower than both.
const likeAPerson = (question: string): Promise<void> => pause(isDeliberate(question) ? 450 : 350);

const isDeliberate = (question: string): boolean => /Or type back\.$|^Over by/.test(question);

for (const [columns, rows, hand, how] of [
  [80, 24, inOneChunk, 'whole lines in one chunk'],
  [80, 24, keyByKey, 'key by key'],
  [60, 20, inOneChunk, 'whole lines in one chunk'],
] as const) {
  test.concurrent(`walks the demo at ${columns}×${rows}, ${how}, to the record that plain mode makes`, async context => {
    const [plain, screen] = [tempDir(), tempDir()];
    const questions = inLines(plain);
    const lines = [...weighing, ...signing];
    expect(questions).toHaveLength(lines.length);
    const running = onScreen(context, screen, [columns, rows]);
    for (const [index, line] of lines.entries()) {
      const question = questions[index] ?? '';
      await waitForQuestion(running, question);
      await likeAPerson(question);
      await hand(running, line);
    }
    expect((await running.exit).exitCode).toBe(0);
    expect(recordIn(screen)).toBe(recordIn(plain));
    expect(running.bytes()).not.toContain('\u001b[3J');
  }, 120_000);
}

test.concurrent('gives one trigger to one addition, however fast the second one follows', async context => {
  const folder = tempDir();
  const running = onScreen(context, folder, [80, 24]);
  const asked = ['Enter begins', 'Put on:', 'Put mixing bowl', 'Take Sodium'];
  for (const [index, question] of asked.entries()) {
    await running.waitFor(question);
    await pause(400);
    running.send(`${weighing[index] ?? ''}\r`);
  }
  await running.waitFor('reading:');
  await pause(400);
  running.send('1336.1\r1336.1\r');
  await running.waitFor('set aside');
  await running.waitFor('Take Citric acid');
  expect(journalIn(folder).match(/"reading-taken"/g)).toHaveLength(1);
}, 30_000);
