/** The aims for slips, on benches invented by chance; `tests/bench/slips.mjs` prints the figures. */
import { describe, expect, it } from 'vitest';
import { cases } from '../../helpers/cases.ts';
import { simulateKind, simulateMispours, slipKinds } from './simulate.ts';

// Shares in per cent mean something from a few hundred on; always the same benches.
const count = Math.max(400, cases(400));
const fixedSeed = 1;

describe('in a seeded run', () => {
  it.each(slipKinds)('at least 95 %% of pours misread as %s are named so first', kind => {
    const { misread, named } = simulateKind(kind, count, fixedSeed);
    expect(misread).toBeGreaterThan(count / 4);
    expect(named).toBeGreaterThanOrEqual(0.95 * misread);
  });

  it('at most 2 % of real mispours within three widths are called a slip', () => {
    const { mispours, called } = simulateMispours(4 * count, fixedSeed);
    expect(called).toBeLessThanOrEqual(0.02 * mispours);
  });
});
