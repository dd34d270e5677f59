/** The result a second time: masses, lots, shares, limits and dates; shares to four decimals, ties to even. */
import { toDecimal, toExact } from '../../../core/quantity/decimal.ts';
import {
  add,
  isZero,
  type Mass,
  noMass,
  type Ratio,
  ratio,
  ratioOf,
  sum,
  times,
} from '../../../core/quantity/quantity.ts';
import type {
  AdditionResult,
  LimitResult,
  LotMass,
  MaterialResult,
  Result,
} from '../../../core/result/record.ts';
import type { Limit } from '../../../core/sheet/sheet.ts';
import { dateAfter, formatDate, localDate, readInstant } from '../../../core/time/instant.ts';
import { adjustedTotal, massAt } from './amounts.ts';
import type { Entry } from './entry.ts';
import { boundedBy, isKept, type Portion } from './limit-again.ts';
import type { Replayed } from './replayed.ts';
import { poursOf, totalOf, verdictOf } from './weighing.ts';
import { yieldAgain } from './yield-again.ts';

interface Part {
  readonly lot?: string;
  readonly mass: Mass;
  readonly waste: Mass;
}

const lotsOf = (parts: readonly Part[]): readonly LotMass[] => {
  const byLot = new Map<string | undefined, Part>();
  for (const part of parts) {
    const known = byLot.get(part.lot) ?? { ...part, mass: noMass, waste: noMass };
    byLot.set(part.lot, {
      ...known,
      mass: add(known.mass, part.mass),
      waste: add(known.waste, part.waste),
    });
  }
  return [...byLot.values()].map(({ lot, mass, waste }) => ({
    ...(lot === undefined ? {} : { lot }),
    mass: toExact(mass),
    waste: toExact(waste),
  }));
};

const partsAt = ({ weighings, adjusted }: Replayed, n: number): readonly Part[] => {
  const weighing = weighings.get(n);
  if (weighing === undefined) {
    return (adjusted.get(n) ?? []).map(entry => ({ ...entry, waste: noMass }));
  }
  return poursOf(weighing).map(({ net, ...pour }) => ({ ...pour, mass: net }));
};

const additionsOf = (replayed: Replayed): readonly AdditionResult[] =>
  [...replayed.weighings].map(([step, weighing]) => {
    const total = totalOf(weighing);
    const isJudged = replayed.doneAt.has(step) || !isZero(total);
    return {
      n: weighing.line.n,
      step,
      net: toExact(total),
      ...(isJudged ? { verdict: verdictOf(total, weighing.line) } : {}),
      lots: lotsOf(partsAt(replayed, step)),
    };
  });

const materialAt = ({ plan }: Replayed, n: number): string | undefined => {
  const step = plan.steps[n - 1]?.step;
  return step?.kind === 'add' || step?.kind === 'adjust' ? step.material : undefined;
};

const adjustmentsOf = (replayed: Replayed): Result['adjustments'] =>
  replayed.plan.steps.flatMap(({ n, step }) =>
    step.kind === 'adjust' && replayed.adjusted.has(n)
      ? [
          {
            step: n,
            material: step.material,
            mass: toExact(adjustedTotal(replayed, n)),
            lots: lotsOf(partsAt(replayed, n)),
          },
        ]
      : [],
  );

const sumWhere = (replayed: Replayed, counts: (n: number) => boolean): Mass =>
  sum(
    noMass,
    replayed.plan.steps.filter(({ n }) => counts(n)).map(({ n }) => massAt(replayed, n)),
  );

const percent = (value: Ratio, places: number): string =>
  toDecimal(times(value, ratio(100n)), places, 'half-even');

const materialsOf = (replayed: Replayed, massIn: Mass): readonly MaterialResult[] =>
  [...replayed.sheet.materials.values()].map(({ key, name }) => {
    const steps = replayed.plan.steps.filter(({ n }) => materialAt(replayed, n) === key);
    const mass = sumWhere(replayed, n => materialAt(replayed, n) === key);
    return {
      material: key,
      name,
      mass: toExact(mass),
      share: percent(isZero(massIn) ? ratio(0n) : ratioOf<'g'>(mass, massIn), 4),
      lots: lotsOf(steps.flatMap(({ n }) => partsAt(replayed, n))),
    };
  });

const portionsOf = (replayed: Replayed): readonly Portion[] =>
  replayed.plan.steps.flatMap(({ n, phase }) => {
    const material = materialAt(replayed, n);
    return material === undefined || phase === undefined
      ? []
      : [{ phase: phase.name, material, mass: massAt(replayed, n) }];
  });

const limitAgain = (limit: Limit, portions: readonly Portion[], n: number): LimitResult => {
  const { part, whole } = boundedBy(limit, portions);
  const holds = isKept(limit, part, whole);
  if (isZero(whole)) return { n, holds };
  const actual = ratioOf<'g'>(part, whole);
  const shown = limit.kind === 'share' ? percent(actual, 4) : toDecimal(actual, 4, 'half-even');
  return { n, actual: shown, holds };
};

const bestBefore = ({ sheet: { useWithin }, lastAddition }: Replayed): string | undefined => {
  const at = lastAddition && readInstant(lastAddition.at);
  return at && useWithin && formatDate(dateAfter(localDate(at), useWithin));
};

/** Works out the result of a closed batch. Throws a RangeError where the events do not begin and close one. */
export const resultAgain = (replayed: Replayed, entries: readonly Entry[]): Result => {
  const [begun, closed] = [entries[0], entries.at(-1)];
  if (begun?.type !== 'begun' || closed?.type !== 'closed') {
    throw new RangeError('the events do not begin with the beginning and end with the end');
  }
  const massIn = sumWhere(replayed, () => true);
  const made = yieldAgain(replayed, massIn);
  const best = bestBefore(replayed);
  const portions = portionsOf(replayed);
  return {
    outcome: closed.outcome,
    ...(closed.reason === undefined ? {} : { reason: closed.reason }),
    begun: begun.at,
    closed: closed.at,
    people: [...replayed.people],
    vessels: [...replayed.vessels].map(([vessel, { tare, contents }]) => ({
      vessel,
      tare: toExact(tare),
      contents: toExact(contents),
    })),
    massIn: toExact(massIn),
    additions: additionsOf(replayed),
    adjustments: adjustmentsOf(replayed),
    materials: materialsOf(replayed, massIn),
    limits: replayed.sheet.limits.map((limit, index) => limitAgain(limit, portions, index + 1)),
    deviations: replayed.deviations,
    ...(made === undefined ? {} : { yield: made }),
    ...(best === undefined ? {} : { bestBefore: best }),
  };
};
