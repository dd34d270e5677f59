import type { OnScale, Plan, WeighingPart } from '../core/plan/plan.ts';
import { onScale as onScaleOf } from '../core/plan/window.ts';
import { toDecimal, toExact } from '../core/quantity/decimal.ts';
import type { Mass } from '../core/quantity/quantity.ts';
import type { Problem } from '../core/sheet/problem.ts';
import { findingOf } from './show-problems.ts';

const text = (mass: Mass | undefined): string | null => (mass === undefined ? null : toExact(mass));

const partJson = ({ target, window }: WeighingPart, on: OnScale | undefined) => {
  const fit = on && onScaleOf(target, window, on.scale);
  return { target: toExact(target), low: text(fit?.low), high: text(fit?.high) };
};

/** The plan as JSON: masses are decimal text in grams, the batch's to 0.0001 g with ties to even. */
export const planJson = ({
  plan,
  problems,
}: {
  readonly plan: Plan;
  readonly problems: readonly Problem[];
}): string =>
  JSON.stringify(
    {
      batch: { mass: toDecimal(plan.size.batchMass, 4, 'half-even'), pieces: plan.size.pieces },
      additions: plan.additions.map(({ n, phase, material, onScale, weighings, parts }) => ({
        n,
        phase,
        material,
        target: text(onScale?.target),
        low: text(onScale?.low),
        high: text(onScale?.high),
        scale: onScale?.scale.name ?? null,
        weighings,
        ...(parts && { parts: parts.map(each => partJson(each, onScale)) }),
      })),
      findings: problems.map(findingOf),
    },
    null,
    2,
  );
