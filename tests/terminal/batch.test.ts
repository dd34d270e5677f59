/** The built program in a real pseudo-terminal: the same batch on the screen and line by line. */
import { expect, test } from 'vitest';
import { maker, signing, tartletsSheet, weighing } from '../helpers/tartlets.ts';
import { tempDir } from '../helpers/temp-dir.ts';
import { pause } from './harness.ts';
import {
  inOneChunk,
  journalIn,
  keyByKey,
  onScreen,
  questionsInLines,
  recordIn,
  walk,
} from './walk.ts';

const args = ['run', tartletsSheet, '--practice', '--by', maker];

for (const [columns, rows, hand, how] of [
  [80, 24, inOneChunk, 'whole lines in one chunk'],
  [80, 24, keyByKey, 'key by key'],
  [60, 20, inOneChunk, 'whole lines in one chunk'],
] as const) {
  test.concurrent(`walks the demo at ${columns}×${rows}, ${how}, to the record that plain mode makes`, async context => {
    const [plain, screen] = [tempDir(), tempDir()];
    const lines = [...weighing, ...signing];
    const questions = questionsInLines(plain, args, lines);
    expect(questions).toHaveLength(lines.length);
    const running = onScreen(context, screen, args, [columns, rows]);
    await walk(running, questions, lines, hand);
    expect((await running.exit).exitCode).toBe(0);
    expect(recordIn(screen)).toBe(recordIn(plain));
    expect(running.bytes()).not.toContain('\u001b[3J');
  }, 120_000);
}

for (const [where, typed] of [
  ['before', ['--no-alt-screen', ...args]],
  ['behind', [...args, '--no-alt-screen']],
] as const) {
  test.concurrent(`leaves what stood on the terminal with --no-alt-screen ${where} the command`, async context => {
    const running = onScreen(context, tempDir(), typed, [80, 24]);
    await running.waitFor('begins the batch');
    expect(running.bytes()).not.toContain('\u001b[?1049h');
  });
}

test.concurrent('gives one trigger to one addition, however fast the second one follows', async context => {
  const folder = tempDir();
  const running = onScreen(context, folder, args, [80, 24]);
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
