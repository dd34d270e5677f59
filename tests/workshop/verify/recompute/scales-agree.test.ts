/** The plan that verify works out again, on random sheets and scales. All cases are invented by chance. */
import * as fc from 'fast-check';
import { expect, test } from 'vitest';
import { planBatch } from '../../../../src/core/plan/plan-batch.ts';
import { toExact } from '../../../../src/core/quantity/decimal.ts';
import { scaleText, sizeText } from '../../../../src/core/run/size-text.ts';
import { planAgain } from '../../../../src/workshop/verify/recompute/plan-again.ts';
import { cases, seed } from '../../../helpers/cases.ts';
import { anyScene, programmeOf } from '../../../helpers/random-scales.ts';

test('verify finds the same scales, targets and weighings as the plan', () => {
  fc.assert(
    fc.property(anyScene, scene => {
      const { sheet, wish, scales } = programmeOf(scene);
      const { plan } = planBatch(sheet, wish, scales);
      const again = () =>
        planAgain(sheet, sizeText(wish, plan.size.pieces), scales.map(scaleText)).text.additions;
      if (plan.additions.some(each => each.onScale === undefined)) {
        expect(again).toThrow(RangeError);
        return;
      }
      expect(again()).toEqual(
        plan.additions.map(
          ({ n, step, phase, material, exact, window, onScale, weighings, parts }) => ({
            n,
            step,
            phase,
            material,
            exact: toExact(exact),
            windowLow: toExact(window.low),
            windowHigh: toExact(window.high),
            scale: onScale?.scale.name,
            target: onScale?.target && toExact(onScale.target),
            low: onScale?.low && toExact(onScale.low),
            high: onScale?.high && toExact(onScale.high),
            weighings,
            ...(parts && {
              parts: parts.map(part => ({
                target: toExact(part.target),
                windowLow: toExact(part.window.low),
                windowHigh: toExact(part.window.high),
              })),
            }),
          }),
        ),
      );
    }),
    { numRuns: cases(1000), seed },
  );
}, 3_600_000);
