/** Sizes and totals against a second arithmetic. All cases are invented by chance. */
import * as fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { planBatch } from '../../../src/core/plan/plan-batch.ts';
import { grams, noMass, ratio, sum } from '../../../src/core/quantity/quantity.ts';
import { massOf } from '../../helpers/as-program.ts';
import { cases, seed } from '../../helpers/cases.ts';
import { by, type Fraction, minus, over, wholeBelow } from '../../helpers/fraction.ts';
import { adding, base, phaseOf, sheetOf } from '../../helpers/sheet.ts';

const anySheet = fc.record({
  count: fc.integer({ min: 1, max: 400 }),
  fill: fc.bigInt({ min: 1n, max: 50_000n }),
  loss: fc.bigInt({ min: 0n, max: 40n }),
  share: fc.bigInt({ min: 1n, max: 99n }),
  line: fc.bigInt({ min: 1n, max: 9999n }),
  wish: fc.bigInt({ min: 1n, max: 10_000_000n }),
  pieces: fc.integer({ min: 1, max: 2000 }),
});

const percentSheet = (given: {
  readonly count: number;
  readonly fill: bigint;
  readonly loss: bigint;
  readonly share: bigint;
  readonly line: bigint;
}) =>
  sheetOf(
    [
      phaseOf(
        'Base',
        [
          {
            ...adding('a', 'rest'),
            amount: { kind: 'share', share: ratio(given.line, 10_000n) },
          },
          adding('b', 'rest'),
        ],
        { share: ratio(given.share, 100n) },
      ),
      phaseOf('Top', [adding('c', 'rest')], { share: ratio(100n - given.share, 100n) }),
    ],
    {
      makes: {
        piece: 'piece',
        count: given.count,
        fill: grams(ratio(given.fill, 10n)),
        loss: ratio(given.loss, 100n),
        place: base().place,
      },
    },
  );

describe('a percentage sheet', () => {
  it('is weighed in as count · fill / (1 − loss), line by line', () => {
    fc.assert(
      fc.property(anySheet, given => {
        const sheet = percentSheet(given);
        const { plan } = planBatch(sheet, { by: 'pieces', pieces: given.pieces }, []);
        const each = over([given.fill, 10n], minus([1n, 1n], [given.loss, 100n]));
        const batch = by([BigInt(given.pieces), 1n], each);
        const phase = by(batch, [given.share, 100n]);
        const line = by(phase, [given.line, 10_000n]);
        expect(plan.size.batchMass).toEqual(massOf(batch));
        expect(plan.additions.map(addition => addition.exact)).toEqual([
          massOf(line),
          massOf(minus(phase, line)),
          massOf(minus(batch, phase)),
        ]);
        expect(
          sum(
            noMass,
            plan.phases.map(one => one.mass),
          ),
        ).toEqual(massOf(batch));
      }),
      { numRuns: cases(300), seed },
    );
  });

  it('makes ⌊mass · (1 − loss) / fill⌋ pieces of a mass and leaves the remainder', () => {
    fc.assert(
      fc.property(anySheet, given => {
        const wish: Fraction = [given.wish, 10n];
        const { plan } = planBatch(percentSheet(given), { by: 'mass', mass: massOf(wish) }, []);
        const each = over([given.fill, 10n], minus([1n, 1n], [given.loss, 100n]));
        const pieces = wholeBelow(over(wish, each));
        expect(plan.size.pieces).toBe(Number(pieces));
        expect(plan.size.remainder).toEqual(massOf(minus(wish, by([pieces, 1n], each))));
        expect(plan.size.batchMass).toEqual(massOf(wish));
      }),
      { numRuns: cases(300), seed },
    );
  });
});
