import { readFileSync } from 'node:fs';
import { basename, join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { type Home, newHome, practiceBatch, type Started } from '../helpers/program.ts';
import { scrubLines, scrubSheet } from '../helpers/scrub.ts';
import { maker, signing, tartletsSheet, weighing } from '../helpers/tartlets.ts';

/** The record without times and what follows from them. */
const recordIn = (home: Home): string =>
  readFileSync(join(practiceBatch(home), 'record.json'), 'utf8').replaceAll(
    /"(at|hash|begun|closed|found)": "[^"]*"/g,
    '"$1": "…"',
  );

// A way of reading and a question that was opened are in hand only while one sits there.
const goesOn = new Set(['difference', 'cup', 'gross', 'net', 'tare', 'take back', 'go on']);

/** What is typed in one sitting: one line, or what cannot be left in its middle. */
const sittings = (lines: readonly string[]): readonly (readonly string[])[] =>
  lines.reduce<readonly (readonly string[])[]>((all, line) => {
    const last = all.at(-1)?.at(-1);
    return last !== undefined && goesOn.has(last)
      ? [...all.slice(0, -1), [...(all.at(-1) ?? []), line]]
      : [...all, [line]];
  }, []);

describe('leaving and resuming', () => {
  it('after each single step makes the same record as one sitting', () => {
    const args = ['run', tartletsSheet, '--practice', '--plain', '--by', maker];
    const atOnce = newHome();
    expect(atOnce.run(args, [...weighing, ...signing]).status).toBe(0);

    const stepwise = newHome();
    const [begin, ...others] = sittings(weighing);
    expect(stepwise.run(args, begin).status).toBe(4);
    const batch = basename(practiceBatch(stepwise));
    for (const lines of others) {
      const { status, stdout } = stepwise.run(['resume', batch, '--plain'], lines);
      expect({ status, lines, stdout }).toMatchObject({ status: 4 });
    }
    expect(stepwise.run(['resume', batch, '--plain'], signing).status).toBe(0);
    expect(recordIn(stepwise)).toBe(recordIn(atOnce));
    expect(stepwise.run(['verify', batch]).status).toBe(0);
  }, 120_000);

  it('says the exact command that goes on', () => {
    const home = newHome();
    const { status, stdout } = home.run(
      ['run', scrubSheet, '--practice', '--plain'],
      [...scrubLines.slice(0, 2), 'leave'],
    );
    expect(status).toBe(4);
    const batch = basename(practiceBatch(home));
    expect(stdout).toContain(`\`tarebook resume ${batch}\``);
    expect(home.run(['verify', batch])).toMatchObject({ status: 4 });
  });
});

/** A run that has come to its first addition. */
const begun = async (home: Home): Promise<Started> => {
  const started = home.start(['run', scrubSheet, '--practice', '--plain']);
  for (const [index, asked] of ['name', 'begins', 'Enter when done', 'Put bowl'].entries()) {
    await started.waitFor(asked);
    started.type(scrubLines[index] ?? '');
  }
  await started.waitFor('Take Sea salt, fine.');
  return started;
};

describe('a batch in hand', () => {
  it('is refused to a second process with status 3, and told who holds it', async () => {
    const home = newHome();
    const first = await begun(home);
    const batch = basename(practiceBatch(home));
    const second = home.run(['resume', batch, '--plain'], ['LOT-1']);
    expect(second.status).toBe(3);
    expect(second.stderr).toContain(String(first.process.pid));
    expect(second.stderr).not.toContain('    at ');
    first.type('SALT-1');
    await first.waitFor('Window');
    first.process.stdin.end();
    expect((await first.ended).status).toBe(4);
    expect(home.run(['resume', batch, '--plain']).status).toBe(4);
  });

  it('that was killed goes on at the very step, with all that was accepted', async () => {
    const home = newHome();
    const killed = await begun(home);
    const batch = basename(practiceBatch(home));
    killed.type('SALT-1');
    await killed.waitFor('Window');
    killed.process.kill('SIGKILL');
    await killed.ended;
    const resumed = home.run(['resume', batch, '--plain'], scrubLines.slice(5));
    expect(resumed.status).toBe(0);
    expect(resumed.stdout).toMatch(/step 2 of 7, Scrub\] Weigh 1\s168\.0\sg of Sea salt, fine/);
    expect(home.run(['verify', batch]).status).toBe(0);
  });
});
