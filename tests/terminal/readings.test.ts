/** Readings as devices and hands type them: none may lose, double or swap a character at any speed. */
import * as fc from 'fast-check';
import { beforeAll, expect, test } from 'vitest';
import { cases, seed } from '../helpers/cases.ts';
import { tempDir } from '../helpers/temp-dir.ts';
import { bundleProgram } from './bundle-fake.ts';
import { launch, pause } from './harness.ts';

let program = '';

beforeAll(async () => {
  program = await bundleProgram('tests/terminal/fake-program.tsx', tempDir());
});

const count = Math.min(200, cases(5));

const digits = fc.integer({ min: 0, max: 99_999 }).map(String);
const reading = fc
  .tuple(digits, fc.constantFrom('.', ','), digits, fc.constantFrom('', ' g', ' kg'))
  .map(([whole, mark, decimals, unit]) => `${whole}${mark}${decimals.slice(0, 2)}${unit}`);

const heardIn = (bytes: string): unknown =>
  JSON.parse(/\{"kind".*\}/.exec(bytes)?.[0] ?? '{}').heard;

for (const load of ['idle', 'busy'] as const) {
  for (const gap of [0, 1, 2, 5, 10, 20, 40]) {
    test(`takes ${count} of ${count} readings right with ${gap} ms between their characters, ${load}`, async context => {
      const running = launch({ args: [program, 'again', load] });
      context.onTestFinished(() => running.signal('SIGKILL'));
      await running.waitFor('Weigh line 6.');
      const readings = [...fc.sample(reading, { numRuns: count, seed: seed + gap }), '4711.5'];
      for (const each of readings) {
        if (gap === 0) running.send(`${each}\r`);
        else await running.type(`${each}\r`, gap);
      }
      await running.waitFor('heard <4711.5>', 60_000);
      await pause(50);
      running.send('\u0003');
      await running.exit;
      expect(heardIn(running.bytes())).toEqual(readings);
    }, 240_000);
  }
}
