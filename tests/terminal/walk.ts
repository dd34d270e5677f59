/** Walks a batch of the built program, line by line and in a real pseudo-terminal. */
import { execFileSync } from 'node:child_process';
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import type { TestContext } from 'vitest';
import { program } from '../helpers/program.ts';
import { launch, pause, type Running } from './harness.ts';

/** Everything that the program keeps, inside one folder. */
export const homeIn = (folder: string): Record<string, string> => ({
  TAREBOOK_WORKSHOP: join(folder, 'workshop'),
  TAREBOOK_KEYS: join(folder, 'keys'),
  XDG_CONFIG_HOME: join(folder, 'config'),
  XDG_DATA_HOME: join(folder, 'data'),
});

/** Gives the lines to plain mode; answers the question that each of them met. */
export const questionsInLines = (
  folder: string,
  args: readonly string[],
  lines: readonly string[],
): readonly string[] =>
  execFileSync(process.execPath, [program, ...args, '--plain'], {
    input: lines.map(line => `${line}\n`).join(''),
    env: { ...process.env, ...homeIn(folder), LC_ALL: 'C.UTF-8' },
    encoding: 'utf8',
  })
    .split('\n> ')
    .slice(0, -1)
    .map(part => (part.split('\n').at(-1) ?? '').replace(/^\[.*?\] /, ''));

/** The folder of the only practice batch. */
const batchFolder = (folder: string): string => {
  const batches = join(folder, 'workshop', 'practice', 'batches');
  return join(batches, execFileSync('ls', [batches], { encoding: 'utf8' }).split('\n')[0] ?? '');
};

/** The record without times and what follows from them. */
export const recordIn = (folder: string): string =>
  readFileSync(join(batchFolder(folder), 'record.json'), 'utf8').replaceAll(
    /"(at|hash|begun|closed|found)": "[^"]*"/g,
    '"$1": "…"',
  );

export const journalIn = (folder: string): string =>
  readFileSync(join(batchFolder(folder), 'journal.jsonl'), 'utf8');

const flat = (text: string): string => text.replaceAll(/\s+/g, ' ');

// A question starts a row; within one, the same words may name a step to come.
const asks = (screen: string, wanted: string): boolean => {
  const rows = screen.split('\n');
  return rows.some((_, at) => flat(rows.slice(at, at + 3).join(' ')).startsWith(wanted));
};

export const waitForQuestion = async (running: Running, question: string): Promise<void> => {
  // The first words are enough: at 60 columns the end of a long question gives way.
  const wanted = flat(question).slice(0, 24);
  for (let tries = 0; !asks(running.screen(), wanted); tries += 1) {
    if (tries > 1500) throw new Error(`never asked “${wanted}”:\n${running.screen()}`);
    await pause(15);
  }
};

const isDeliberate = (question: string): boolean =>
  /Or type back\.$|^Over|Type yes or no\.$/.test(question);

// What follows an accepted line within 300 ms is set aside, and what is typed within 400 ms of a
// question that takes a deliberate answer does not count: a person is slower than both.
const likeAPerson = (question: string): Promise<void> => pause(isDeliberate(question) ? 450 : 350);

/** The program in a terminal of its own, which ends with the test. */
export const onScreen = (
  { onTestFinished }: TestContext,
  folder: string,
  args: readonly string[],
  [columns, rows]: readonly [number, number],
): Running => {
  const running = launch({ args: [program, ...args], columns, rows, env: homeIn(folder) });
  onTestFinished(async () => {
    running.signal('SIGKILL');
    await running.exit;
  });
  return running;
};

export type Hand = (running: Running, line: string) => Promise<void>;
export const inOneChunk: Hand = async (running, line) => running.send(`${line}\r`);
export const keyByKey: Hand = (running, line) => running.type(`${line}\r`, 4);

/** Answers one question after the other, as they come on the screen. */
export const walk = async (
  running: Running,
  questions: readonly string[],
  lines: readonly string[],
  hand: Hand = inOneChunk,
): Promise<void> => {
  for (const [index, line] of lines.entries()) {
    const question = questions[index] ?? '';
    await waitForQuestion(running, question);
    await likeAPerson(question);
    await hand(running, line);
  }
};
