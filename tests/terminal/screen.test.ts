import { afterEach, beforeAll, expect, test } from 'vitest';
import { tempDir } from '../helpers/temp-dir.ts';
import { bundleProgram } from './bundle-fake.ts';
import { type Launch, launch, pause, type Running } from './harness.ts';

let program = '';
const started: Running[] = [];

beforeAll(async () => {
  program = await bundleProgram('tests/terminal/fake-program.tsx', tempDir());
});

afterEach(async () => {
  for (const running of started.splice(0)) {
    running.signal('SIGKILL');
    await running.exit;
  }
});

const start = (what: string, launching: Partial<Launch> = {}): Running => {
  const running = launch({ args: [program, what], ...launching });
  started.push(running);
  return running;
};

const isPutBack = (bytes: string): boolean =>
  bytes.includes('\u001b[?1049l') &&
  bytes.includes('\u001b[?2004l') &&
  bytes.lastIndexOf('\u001b[?25h') > bytes.lastIndexOf('\u001b[?25l');

/** What the conversation heard, as the program prints it at its end. */
const heardBy = async (running: Running): Promise<readonly string[]> => {
  const screen = await running.waitFor('"heard":');
  return JSON.parse(/\{"kind".*\}/s.exec(screen.replaceAll('\n', ''))?.[0] ?? '{}').heard;
};

for (const gap of [0, 1, 5, 20]) {
  test(`takes a reason whole with ${gap} ms between its keys`, async () => {
    const running = start('reason');
    await running.waitFor('reason:');
    await running.type('Spilt 3 g, wiped up.', gap);
    running.send('\r');
    await running.waitFor('heard <Spilt 3 g, wiped up.>');
  });
}

test('takes reasons that arrive with their Enter in one chunk', async () => {
  const running = start('reason');
  await running.waitFor('reason:');
  running.send('first\rsecond one\rthird\r');
  await running.waitFor('heard <third>');
  running.send('\u0003');
  expect(await heardBy(running)).toEqual(['first', 'second one', 'third']);
});

test('edits free text with arrows, Home, Backspace and Delete in one chunk', async () => {
  const running = start('reason');
  await running.waitFor('reason:');
  running.send('abxd\u001b[D\u007fc\u001b[H1\u001b[F9\u001b[D\u001b[3~!\r');
  await running.waitFor('heard <1abcd!>');
});

test('gives the second of two triggers in one chunk to nothing', async () => {
  const running = start('reading');
  await running.waitFor('Weigh line 4.');
  running.send('919.6\r919.6\r');
  await running.waitFor('919.6 set aside');
  running.send('\u0003');
  expect(await heardBy(running)).toEqual(['919.6']);
});

test('takes the first word once a deliberate question could be read, even after a slow disk', async () => {
  const running = start('reading');
  await running.waitFor('Weigh line 4.');
  await pause(200);
  running.send('999\r');
  await running.waitFor('Over.');
  await pause(500);
  running.send('stretch\r');
  await running.waitFor('heard <stretch>');
});

test('leaves with Ctrl+C and says how to go on, on a terminal as it was', async () => {
  const running = start('reading');
  await running.waitFor('Weigh line 4.');
  running.send('\u0003');
  await running.exit;
  expect(running.screen()).toContain('`tarebook resume INV-2027-001` goes on.');
  expect(isPutBack(running.bytes())).toBe(true);
});

for (const signal of ['SIGTERM', 'SIGHUP', 'SIGINT']) {
  test(`leaves on ${signal} with the terminal put back`, async () => {
    const running = start('reading');
    await running.waitFor('Weigh line 4.');
    running.signal(signal);
    expect(await running.waitFor('"kind":"signal"')).toContain('tarebook resume INV-2027-001');
    expect(isPutBack(running.bytes())).toBe(true);
  });
}

test('tells a fault in a sentence that names the batch', async () => {
  const running = start('reading');
  await running.waitFor('Weigh line 4.');
  running.send('fault\r');
  const screen = await running.waitFor('"kind":"fault"');
  expect(screen).toContain('`tarebook resume CDR-2027-014` goes on.');
  expect(screen).not.toMatch(/\n\s+at /);
  expect(isPutBack(running.bytes())).toBe(true);
});

test('ends when the conversation does', async () => {
  const running = start('reading');
  await running.waitFor('Weigh line 4.');
  running.send('end\r');
  expect((await running.exit).exitCode).toBe(0);
  expect(running.screen()).toContain('Ended well.');
});

test('lays out anew at every resize, loses nothing and spares the scrollback', async () => {
  const running = start('reading');
  await running.waitFor('Weigh line 4.');
  running.send('91');
  const before = await running.waitFor('reading: 91   91 g');
  for (const [columns, rows] of [
    [60, 20],
    [120, 40],
    [59, 20],
    [80, 19],
    [100, 30],
    [80, 24],
  ] as const) {
    running.resize(columns, rows);
    await running.waitFor(columns < 60 || rows < 20 ? 'Window too small' : 'reading: 91');
  }
  await expect.poll(running.screen).toBe(before);
  expect(running.bytes()).not.toContain('\u001b[3J');
});

test('refuses what is typed into a window that is too small', async () => {
  const running = start('reading', { columns: 40, rows: 10 });
  const screen = await running.waitFor('Window too small: 40 x 10');
  expect(screen).toContain('Citric acid');
  expect(screen).toContain('919.6 g left');
  running.send('5\r');
  await running.waitFor('5 not used: the window is too small.');
  running.resize(80, 24);
  await running.waitFor('Weigh line 4.');
  running.send('\u0003');
  expect(await heardBy(running)).toEqual([]);
});

test('writes only ASCII and no colour where the terminal knows no more', async () => {
  const running = start('reading', { env: { LC_ALL: 'C', NO_COLOR: '1' } });
  await running.waitFor('Weigh line 4.');
  running.send('12.5\r');
  await running.waitFor('Weigh line 5.');
  const characters = Array.from(running.bytes());
  expect(characters.filter(each => each > '~' && each !== '\u007f')).toEqual([]);
  for (const colour of [31, 32, 33, 34, 35, 36]) {
    expect(running.bytes()).not.toContain(`\u001b[${colour}m`);
  }
});

test('shows the caret as the cursor of the terminal', async () => {
  const running = start('reading');
  await running.waitFor('Weigh line 4.');
  running.send('12\u001b[D');
  await running.waitFor('reading: 12');
  await pause(80);
  expect(running.cursor()).toEqual({ x: 'reading: 1'.length, y: 21 });
});

test('answers a key before the eye sees a delay', async () => {
  const running = start('reading');
  await running.waitFor('Weigh line 4.');
  const waits: number[] = [];
  for (const digit of '123456789012345') {
    await pause(60);
    const before = running.bytes().length;
    const at = performance.now();
    running.send(digit);
    while (running.bytes().length === before) await pause(2);
    waits.push(performance.now() - at);
  }
  const slow = waits.toSorted((a, b) => a - b).at(-2) ?? 0;
  expect(slow).toBeLessThan(150);
});
