/** What stands against a projected finish: limits, vessels, stock, scales. */
import { grams, type Mass, type Ratio, ratio, ratioOf, times } from '../quantity/quantity.ts';
import { toWhole } from '../quantity/rounding.ts';
import { asFinding, type LimitVerdict, limitsAt } from './check-limits.ts';
import { type Finish, finishAt, type Ground, mayStillTake, type Pour } from './finish.ts';
import type { Reason } from './remedy.ts';

interface Receiving {
  readonly vessel: string;
  readonly material: string;
}

/** What is still to go in, in grams times `unit` and the stretch's denominator, by vessel or by material. */
const stillToCome = (
  { adjusts }: Ground,
  { pours, stretch }: Finish,
  keyOf: (each: Receiving) => string,
): ReadonlyMap<string, bigint> => {
  const coming = new Map<string, bigint>();
  const put = (each: Receiving, parts: bigint): void => {
    if (parts > 0n) coming.set(keyOf(each), (coming.get(keyOf(each)) ?? 0n) + parts);
  };
  for (const { measured, divisions } of pours) {
    put(measured.line, divisions * measured.division * stretch.den);
  }
  for (const each of adjusts) put(each.adjusting, mayStillTake(each, stretch));
  return coming;
};

const massOf = (parts: bigint, { unit }: Ground, { stretch }: Finish): Mass =>
  grams(ratio(parts, unit * stretch.den));

const isBeyond = (mass: Mass, parts: bigint, { unit }: Ground, { stretch }: Finish): boolean =>
  parts * mass.den > mass.num * unit * stretch.den;

/** What each vessel will have had in it when it is emptied, with all that is tipped into it. */
const filledTo = (ground: Ground, finish: Finish): ReadonlyMap<string, bigint> => {
  const { vessels } = ground.situation;
  const coming = stillToCome(ground, finish, each => each.vessel);
  const filled = new Map<string, bigint>();
  for (const [key, { mass }] of vessels) {
    const there = mass.num * (ground.unit / mass.den) * finish.stretch.den;
    const own = there + (coming.get(key) ?? 0n);
    for (let at: string | undefined = key; at !== undefined; at = vessels.get(at)?.into) {
      filled.set(at, (filled.get(at) ?? 0n) + own);
    }
  }
  return filled;
};

const overflow = (ground: Ground, finish: Finish): Reason | undefined => {
  for (const [key, parts] of filledTo(ground, finish)) {
    const vessel = ground.situation.vessels.get(key);
    if (vessel?.holds === undefined || !isBeyond(vessel.holds, parts, ground, finish)) continue;
    const { name, holds } = vessel;
    return { code: 'vessel-full', vessel: name, mass: massOf(parts, ground, finish), holds };
  }
  return undefined;
};

const shortage = (ground: Ground, finish: Finish): Reason | undefined => {
  const { stock } = ground.situation;
  if (stock.size === 0) return undefined;
  const needs = stillToCome(ground, finish, each => each.material);
  for (const [material, left] of stock) {
    const parts = needs.get(material) ?? 0n;
    if (isBeyond(left, parts, ground, finish)) {
      return { code: 'stock-short', material, needs: massOf(parts, ground, finish), left };
    }
  }
  return undefined;
};

// An even split into as few weighings as the scale carries keeps each the largest.
const isUnfit = ({ measured, divisions }: Pour): boolean => {
  if (divisions === 0n) return false;
  const { capacity, readability } = measured.line.scale;
  const most = toWhole(ratioOf<'g'>(capacity, readability), 'down');
  if (most < 1n) return true;
  const weighings = (divisions + most - 1n) / most;
  return weighings * measured.leastDivisions > divisions;
};

const unfitScale = ({ pours }: Finish): Reason | undefined => {
  const found = pours.find(isUnfit);
  if (found === undefined) return undefined;
  const { n, material, scale } = found.measured.line;
  const mass = times(scale.readability, ratio(found.divisions));
  return { code: 'scale-unfit', n, material, mass };
};

export interface Findings {
  readonly limits: readonly LimitVerdict[];
  readonly brokenLimit?: LimitVerdict;
  /** A vessel or the stock; broken once, it is at every larger stretch too. */
  readonly bound?: Reason;
  readonly scale?: Reason;
}

/** What stands against a finish. Of the limits only those count that are `kept`, by their place in the sheet. */
const checkFinish = (ground: Ground, finish: Finish, kept: ReadonlySet<number>): Findings => {
  const limits = limitsAt(ground, finish);
  const brokenLimit = limits.find(({ holds }, at) => !holds && kept.has(at));
  const bound = overflow(ground, finish) ?? shortage(ground, finish);
  const scale = unfitScale(finish);
  return {
    limits,
    ...(brokenLimit === undefined ? {} : { brokenLimit }),
    ...(bound === undefined ? {} : { bound }),
    ...(scale === undefined ? {} : { scale }),
  };
};

/** The first thing that stands against a finish; undefined where it can be offered. */
const firstReason = ({ brokenLimit, bound, scale }: Findings): Reason | undefined =>
  brokenLimit === undefined ? (bound ?? scale) : { code: 'limit', finding: asFinding(brokenLimit) };

/** A finish with what was found about it. */
export interface Checked {
  readonly finish: Finish;
  readonly findings: Findings;
  readonly reason: Reason | undefined;
}

/** The batch finished at a stretch, with the first thing that stands against that. */
export const checkAt = (ground: Ground, stretch: Ratio, kept: ReadonlySet<number>): Checked => {
  const finish = finishAt(ground.lines, stretch);
  const findings = checkFinish(ground, finish, kept);
  return { finish, findings, reason: firstReason(findings) };
};
