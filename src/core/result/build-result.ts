/** What a closed batch came to: totals, lots, limits, deviations, yields. */

import { verdictOf } from '../plan/window.ts';
import { toDecimal, toExact } from '../quantity/decimal.ts';
import {
  add,
  isEqual,
  isPositive,
  type Mass,
  noMass,
  ratio,
  ratioOf,
  sum,
} from '../quantity/quantity.ts';
import { massesIn } from '../run/project.ts';
import type { AdjustState, ClosedRun, Pour } from '../run/state.ts';
import { evaluateLimits } from '../sheet/limits.ts';
import { bestBeforeOf } from './best-before.ts';
import type { AdditionResult, LimitResult, LotMass, MaterialResult, Result } from './record.ts';
import { percentText } from './statistics.ts';
import { yieldOf } from './yield.ts';

type LotPour = Pick<Pour, 'lot' | 'net' | 'waste'>;

const isSomething = ({ net, waste }: LotPour): boolean => isPositive(net) || isPositive(waste);

/** Pours of the same lot together, in the order in which lots were first used. */
const byLot = (pours: readonly LotPour[]): readonly LotMass[] => {
  const lots = new Map<string | undefined, { readonly mass: Mass; readonly waste: Mass }>();
  for (const { lot, net, waste } of pours.filter(isSomething)) {
    const before = lots.get(lot) ?? { mass: noMass, waste: noMass };
    lots.set(lot, { mass: add(before.mass, net), waste: add(before.waste, waste) });
  }
  return [...lots].map(([lot, { mass, waste }]) => ({
    ...(lot === undefined ? {} : { lot }),
    mass: toExact(mass),
    waste: toExact(waste),
  }));
};

const poursOf = ({ entries }: AdjustState): readonly LotPour[] =>
  entries.map(({ lot, mass }) => ({
    net: mass,
    waste: noMass,
    ...(lot === undefined ? {} : { lot }),
  }));

interface Poured {
  readonly n: number;
  readonly material: string;
  readonly pours: readonly LotPour[];
}

/** The pours of each step that puts a material in. */
const pouredIn = (run: ClosedRun): readonly Poured[] =>
  run.plan.steps.flatMap(({ n, step }, index) => {
    const state = run.steps[index];
    if (step.kind === 'add' && state?.kind === 'addition')
      return [{ n, material: step.material, pours: state.pours }];
    if (step.kind === 'adjust' && state?.kind === 'adjust')
      return [{ n, material: step.material, pours: poursOf(state) }];
    return [];
  });

const additionResults = (run: ClosedRun): readonly AdditionResult[] =>
  run.plan.additions.map(({ n, step, window }) => {
    const state = run.steps[step - 1];
    const isJudged =
      state?.kind === 'addition' && (state.status === 'done' || isPositive(state.total));
    return state?.kind === 'addition'
      ? {
          n,
          step,
          net: toExact(state.total),
          ...(isJudged ? { verdict: verdictOf(state.total, window) } : {}),
          lots: byLot(state.pours),
        }
      : { n, step, net: '0', lots: [] };
  });

const massIn = (pours: readonly LotPour[]): Mass =>
  sum(
    noMass,
    pours.map(pour => pour.net),
  );

const materialResults = (
  { sheet }: ClosedRun,
  poured: readonly Poured[],
  total: Mass,
): readonly MaterialResult[] =>
  [...sheet.materials.values()].map(({ key, name }) => {
    const pours = poured.flatMap(each => (each.material === key ? each.pours : []));
    const mass = massIn(pours);
    const share = isEqual(total, noMass) ? ratio(0n) : ratioOf<'g'>(mass, total);
    return {
      material: key,
      name,
      mass: toExact(mass),
      share: percentText(share, 4),
      lots: byLot(pours),
    };
  });

const limitResults = (run: ClosedRun): readonly LimitResult[] =>
  evaluateLimits(run.sheet.limits, massesIn(run)).map(({ limit, actual, holds }, index) => {
    if (actual === undefined) return { n: index + 1, holds };
    const text =
      limit.kind === 'share' ? percentText(actual, 4) : toDecimal(actual, 4, 'half-even');
    return { n: index + 1, actual: text, holds };
  });

/** Who made the batch: each once, in order. */
export const peopleOf = (run: ClosedRun): readonly string[] => [
  ...new Set(run.events.map(event => event.by)),
];

const vesselResults = (run: ClosedRun) =>
  [...run.vessels].map(([vessel, { tare, contents }]) => ({
    vessel,
    tare: toExact(tare),
    contents: toExact(contents),
  }));

/** Works the result of a closed batch out of its events. */
export const buildResult = (run: ClosedRun): Result => {
  const poured = pouredIn(run);
  const total = massIn(poured.flatMap(each => each.pours));
  const yielded = yieldOf(run, total);
  const bestBefore = bestBeforeOf(run);
  return {
    outcome: run.outcome,
    ...(run.reason === undefined ? {} : { reason: run.reason }),
    begun: run.events[0]?.at ?? '',
    closed: run.events.at(-1)?.at ?? '',
    people: peopleOf(run),
    vessels: vesselResults(run),
    massIn: toExact(total),
    additions: additionResults(run),
    adjustments: poured
      .filter(({ n, pours }) => run.steps[n - 1]?.kind === 'adjust' && pours.length > 0)
      .map(({ n, material, pours }) => ({
        step: n,
        material,
        mass: toExact(massIn(pours)),
        lots: byLot(pours),
      })),
    materials: materialResults(run, poured, total),
    limits: limitResults(run),
    deviations: run.deviations,
    ...(yielded === undefined ? {} : { yield: yielded }),
    ...(bestBefore === undefined ? {} : { bestBefore }),
  };
};
