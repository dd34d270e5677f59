/** The largest batch that stock, vessel and scales allow, against trying one piece more. All cases are invented by chance. */
import * as fc from 'fast-check';
import { expect, it } from 'vitest';
import { planBatch } from '../../../src/core/plan/plan-batch.ts';
import { grams, ratio } from '../../../src/core/quantity/quantity.ts';
import { cases, seed } from '../../helpers/cases.ts';
import { scaleOf } from '../../helpers/plan.ts';
import { adding, phaseOf, sheetOf } from '../../helpers/sheet.ts';

const whole = (min: number, max: number) => fc.integer({ min, max });

const given = fc.record({
  salt: whole(1, 99),
  stock: whole(1, 400_000),
  oil: whole(1, 400_000),
  holds: whole(100, 400_000),
  capacity: fc.constantFrom(50, 200, 1000, 10_000),
});

it('--have makes as many whole pieces as are possible, and one more is not', () => {
  const bound = { salt: 0, oil: 0, bowl: 0, only: 0 };
  fc.assert(
    fc.property(given, ({ salt, stock, oil, holds, capacity }) => {
      const vessel = { name: 'bowl', holds: grams(ratio(BigInt(holds))) };
      const steps = [adding('salt', `${salt * 10}g`), adding('oil', `${1000 - salt * 10}g`)];
      const sheet = sheetOf([phaseOf('Base', steps, { vessel })], { basis: 'absolute' });
      const have = new Map([
        ['salt', grams(ratio(BigInt(stock)))],
        ['oil', grams(ratio(BigInt(oil)))],
      ]);
      const scales = [scaleOf('only', String(capacity), '0.1')];
      const { pieces, binds } = planBatch(sheet, { by: 'have', have }, scales).plan.size;
      // A piece is 100 g, of which `salt` g are salt; each line may be 1 % more. What twenty displays
      // round away is two grams: only there may a size be possible or not.
      const isPossible = (count: number, slack: number): boolean =>
        count * salt <= stock &&
        count * (100 - salt) <= oil &&
        count * 100 <= holds &&
        count * Math.max(salt, 100 - salt) * 101 <= (capacity * 20 + slack) * 100;
      expect(isPossible(pieces, 2)).toBe(true);
      expect(isPossible(pieces + 1, 0)).toBe(false);
      if (binds !== undefined) bound[binds as keyof typeof bound] += 1;
    }),
    { numRuns: cases(300), seed },
  );
  console.info(`${cases(300)} sizes, bound by ${JSON.stringify(bound)}`);
});
