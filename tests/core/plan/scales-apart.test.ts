/**
 * Scales, targets, windows and weighings of random sheets on random scales, against the rules of
 * sheet.md a second time. All cases are invented by chance.
 */
import * as fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { Addition } from '../../../src/core/plan/plan.ts';
import { planBatch } from '../../../src/core/plan/plan-batch.ts';
import type { Mass } from '../../../src/core/quantity/quantity.ts';
import { massOf } from '../../helpers/as-program.ts';
import { cases, seed } from '../../helpers/cases.ts';
import { by, type Fraction, minus, order, plus } from '../../helpers/fraction.ts';
import { anyScene, programmeOf, type SceneGiven } from '../../helpers/random-scales.ts';
import {
  findingsAskedFor,
  type Range,
  type Way,
  wayAskedFor,
  windowApart,
} from '../../helpers/weighing-rules.ts';

const isSame = (mass: Mass, [num, den]: Fraction): boolean => mass.num * den === num * mass.den;
const shown = (count: bigint, d: Fraction): Mass => massOf([d[0] * count, d[1]]);

const fractionOf = ({ num, den }: Mass): Fraction => [num, den];

const all = (masses: readonly Fraction[]): Fraction =>
  masses.reduce((sum, mass) => plus(sum, mass), [0n, 1n]);

/** Each weighing by itself, and all of them together. */
const checkParts = (addition: Addition, window: Range, way: Way): void => {
  const { parts } = addition;
  if (way.weighings === 1n) {
    expect(parts).toBeUndefined();
    return;
  }
  const targets = (parts ?? []).map(each => fractionOf(each.target));
  const counts = targets.map(target => (target[0] * way.d[1]) / (target[1] * way.d[0]));
  expect(BigInt(counts.length)).toBe(way.weighings);
  expect(targets.map(massOf)).toEqual(counts.map(count => shown(count, way.d)));
  expect(counts.reduce((all, count) => all + count, 0n)).toBe(way.target);
  expect((counts[0] ?? 0n) - (counts.at(-1) ?? 0n)).toBeLessThanOrEqual(1n);
  expect(counts).toEqual(counts.toSorted((a, b) => Number(b - a)));
  const [lows, highs] = [
    (parts ?? []).map(each => fractionOf(each.window.low)),
    (parts ?? []).map(each => fractionOf(each.window.high)),
  ];
  expect([massOf(all(lows)), massOf(all(highs))]).toEqual([
    massOf(window.low),
    massOf(window.high),
  ]);
  for (const [index, target] of targets.entries()) {
    const [low, high] = [lows[index] ?? target, highs[index] ?? target];
    expect(order(low, target) <= 0n && order(target, high) <= 0n).toBe(true);
    // Every weighing has the same room on either side.
    expect(isSame(massOf(minus(target, low)), minus(targets[0] ?? target, lows[0] ?? low))).toBe(
      true,
    );
    const most = massOf(high);
    const capacity = massOf(plus(way.capacity, way.d));
    expect(most.num * capacity.den < capacity.num * most.den).toBe(true);
  }
};

interface Asked {
  readonly exact: Fraction;
  readonly window: Range;
  readonly way: Way | undefined;
}

const askedFor = (scene: SceneGiven, at: number): Asked => {
  const line = scene.lines[at];
  if (line === undefined) throw new Error('a line too many');
  const exact = by(line.amount, scene.factor);
  const window = windowApart(line, exact);
  return { exact, window, way: wayAskedFor(exact, window, scene.scales) };
};

const checkLine = (addition: Addition, { exact, window, way }: Asked, standing: Fraction): void => {
  expect(addition.exact).toEqual(massOf(exact));
  expect(addition.window).toEqual({ low: massOf(window.low), high: massOf(window.high) });
  expect(addition.onScale?.scale.name).toBe(way && `scale ${way.scale + 1}`);
  expect(BigInt(addition.weighings)).toBe(way?.weighings ?? 1n);
  if (way === undefined) return;
  expect([addition.onScale?.low, addition.onScale?.target, addition.onScale?.high]).toEqual(
    [way.low, way.target, way.high].map(count => shown(count, way.d)),
  );
  checkParts(addition, window, way);
  const load = plus(standing, [way.d[0] * way.high, way.d[1]]);
  expect(addition.place).toBe(order(load, way.capacity) > 0n ? 'cup' : 'vessel');
};

const told = { single: 0, several: 0, none: 0, degraded: 0 };

const note = (way: Way | undefined): void => {
  told[way === undefined ? 'none' : way.weighings > 1n ? 'several' : 'single'] += 1;
  if (way !== undefined && (way.isNarrow || way.isLight)) told.degraded += 1;
};

const check = (scene: SceneGiven): void => {
  const { sheet, wish, scales } = programmeOf(scene);
  const { plan, problems } = planBatch(sheet, wish, scales);
  let standing = scene.tare;
  for (const [at, addition] of plan.additions.entries()) {
    const asked = askedFor(scene, at);
    checkLine(addition, asked, standing);
    standing = plus(standing, asked.exact);
    const { place } = plan.steps[addition.step - 1]?.step ?? sheet.makes;
    const found = problems
      .filter(each => each.line === place.line && each.code !== 'window-unclaimable')
      .map(each => each.code);
    expect(found.toSorted()).toEqual(findingsAskedFor(asked.window, asked.way));
    note(asked.way);
  }
};

describe('a plan', () => {
  it('keeps the rules on scales, targets, windows and weighings', () => {
    fc.assert(fc.property(anyScene, check), { numRuns: cases(1500), seed });
    console.info(
      `${cases(1500)} sheets: ${told.single} lines weighed at once, ${told.several} in several weighings, ${told.none} on no scale; ${told.degraded} with a warning or an error of their scale`,
    );
    expect(told.several).toBeGreaterThan(0);
    expect(told.none).toBeGreaterThan(0);
  }, 3_600_000);
});
