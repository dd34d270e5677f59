import type { OnScale, Plan, WeighingPart } from '../core/plan/plan.ts';
import { onScale as onScaleOf } from '../core/plan/window.ts';
import { toDecimal, toExact } from '../core/quantity/decimal.ts';
import { isZero, type Mass } from '../core/quantity/quantity.ts';
import type { Problem } from '../core/sheet/problem.ts';
import { type Picked, type PlannedSheet, pickingList } from './picking-list.ts';
import { findingOf } from './show-problems.ts';

interface Planned {
  readonly plan: Plan;
  readonly problems: readonly Problem[];
}

const text = (mass: Mass | undefined): string | null => (mass === undefined ? null : toExact(mass));

const partJson = ({ target, window }: WeighingPart, on: OnScale | undefined) => {
  const fit = on && onScaleOf(target, window, on.scale);
  return { target: toExact(target), low: text(fit?.low), high: text(fit?.high) };
};

const ofSheet = ({ plan, problems }: Planned) => ({
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
});

/** The plan as JSON: masses are decimal text in grams, the batch's to 0.0001 g with ties to even. */
export const planJson = (planned: Planned): string => JSON.stringify(ofSheet(planned), null, 2);

const decimal = (mass: Mass): string => {
  const exact = toExact(mass);
  return exact.includes('/') ? toDecimal(mass, 4, 'half-even') : exact;
};

const amountJson = ({ mass, adjust }: Pick<Picked, 'mass' | 'adjust'>) => ({
  mass: decimal(mass),
  ...(isZero(adjust) ? {} : { adjust: decimal(adjust) }),
});

const pickedJson = (sheets: readonly PlannedSheet[], { name, inci, parts, ...all }: Picked) => ({
  name,
  ...(inci.length === 0 ? {} : { inci: inci.join(' / ') }),
  ...amountJson(all),
  parts: parts.flatMap((part, index) =>
    isZero(part.mass) && isZero(part.adjust)
      ? []
      : [{ sheet: sheets[index]?.path ?? '', ...amountJson(part) }],
  ),
});

/** Several sheets as JSON: each as it is alone, and what to fetch for all of them. */
export const plansJson = (sheets: readonly PlannedSheet[]): string =>
  JSON.stringify(
    {
      sheets: sheets.map(each => ({ sheet: each.path, ...ofSheet(each) })),
      materials: pickingList(sheets).map(each => pickedJson(sheets, each)),
    },
    null,
    2,
  );
