/** The batch as it would end at a stretch, and what stands against that. */
import {
  add,
  isMore,
  isNegative,
  type Mass,
  noMass,
  type Ratio,
  subtract,
  times,
} from '../../../../core/quantity/quantity.ts';
import type { Limit } from '../../../../core/sheet/sheet.ts';
import { inDivisions } from '../choose-again.ts';
import { type Bounded, boundedBy, isKept, type Portion } from '../limit-again.ts';
import type { Place } from './places.ts';
import { divisionsAt, massOfDivisions, type PourLine } from './pour-line.ts';

export interface AdjustLine {
  readonly phase: string;
  readonly material: string;
  readonly place: Place;
  readonly net: Mass;
  /** At the present size. */
  readonly most: Mass;
  readonly isDone: boolean;
}

/** A batch with an over-pour, as far as its remedies depend on it. */
export interface Standing {
  readonly lines: readonly PourLine[];
  readonly adjusts: readonly AdjustLine[];
  readonly limits: readonly Limit[];
  /** Where what is in a place will be tipped. */
  readonly next: (place: Place) => Place | undefined;
  readonly holds: (vessel: string) => Mass | undefined;
  /** Whole pieces at the present size. */
  readonly pieces: number;
  readonly eachPiece: Mass;
}

interface Poured {
  readonly line: PourLine;
  readonly divisions: bigint;
  readonly mass: Mass;
}

export interface Finish {
  readonly stretch: Ratio;
  readonly poured: readonly Poured[];
  /** Each limit with the adjust steps as they are, and with them at their most. */
  readonly bounded: readonly (readonly [asTheyAre: Bounded, atMost: Bounded])[];
}

const stillTakes = ({ isDone, net, most }: AdjustLine, stretch: Ratio): Mass => {
  const left = subtract(times(most, stretch), net);
  return isDone || isNegative(left) ? noMass : left;
};

export const finishAt = ({ lines, adjusts, limits }: Standing, stretch: Ratio): Finish => {
  const poured = lines.map(line => {
    const divisions = divisionsAt(line, stretch);
    return { line, divisions, mass: add(line.net, massOfDivisions(line, divisions)) };
  });
  const weighed = poured.map(({ line: { phase, material }, mass }) => ({ phase, material, mass }));
  const sprayed = (atMost: boolean): readonly Portion[] =>
    adjusts.map(each => ({
      phase: each.phase,
      material: each.material,
      mass: atMost ? add(each.net, stillTakes(each, stretch)) : each.net,
    }));
  const [bare, full] = [
    [...weighed, ...sprayed(false)],
    [...weighed, ...sprayed(true)],
  ];
  const bounded = limits.map(each => [boundedBy(each, bare), boundedBy(each, full)] as const);
  return { stretch, poured, bounded };
};

/** Which limits a finish keeps, by their place in the sheet. */
export const keptAt = ({ limits }: Standing, { bounded }: Finish): readonly boolean[] =>
  limits.map((limit, index) =>
    (bounded[index] ?? []).every(({ part, whole }) => isKept(limit, part, whole)),
  );

const overflows = ({ adjusts, next, holds }: Standing, { poured, stretch }: Finish): boolean => {
  const filled = new Map<string, Mass>();
  const isFull = (place: Place, mass: Mass): boolean => {
    const there = add(filled.get(place.key) ?? noMass, mass);
    filled.set(place.key, there);
    const [room, further] = [place.isClosed ? undefined : holds(place.vessel), next(place)];
    const isBeyond = room !== undefined && isMore(there, room);
    return (further !== undefined && isFull(further, mass)) || isBeyond;
  };
  return [
    ...poured.map(({ line, mass }) => isFull(line.place, mass)),
    ...adjusts.map(each => isFull(each.place, add(each.net, stillTakes(each, stretch)))),
  ].some(each => each);
};

/** No number of weighings keeps each between the least load of the scale and what it carries. */
const isUnweighable = ({ line, divisions }: Poured): boolean => {
  if (divisions === 0n) return false;
  const most = inDivisions(line.capacity, line.division, 'down');
  if (most < 1n) return true;
  const weighings = (divisions + most - 1n) / most;
  return weighings * line.leastDivisions > divisions;
};

/** The code of what stands against a finish. What is in stock no batch knows yet, so no material runs out. */
export const reasonAgainst = (
  standing: Standing,
  finish: Finish,
  kept: readonly boolean[],
): string | undefined => {
  const now = keptAt(standing, finish);
  if (kept.some((was, index) => was && now[index] === false)) return 'limit';
  if (overflows(standing, finish)) return 'vessel-full';
  return finish.poured.some(isUnweighable) ? 'scale-unfit' : undefined;
};

/**
 * Whether nothing from one finish up to a larger one can be offered, since a vessel is full at the first
 * or a limit is out of reach: masses only grow with the stretch.
 */
export const isHopeless = (
  standing: Standing,
  [first, last]: readonly [Finish, Finish],
  kept: readonly boolean[],
): boolean =>
  overflows(standing, first) ||
  standing.limits.some((limit, index) => {
    const [small, large] = [first.bounded[index], last.bounded[index]];
    if (kept[index] !== true || small === undefined || large === undefined) return false;
    return ([0, 1] as const).some(full => {
      const [low, high] = [small[full], large[full]];
      return (
        (limit.most !== undefined && isMore(low.part, times(high.whole, limit.most))) ||
        (limit.least !== undefined && isMore(times(low.whole, limit.least), high.part))
      );
    });
  });
