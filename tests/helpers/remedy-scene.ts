/**
 * Batches in the middle of being poured, invented by chance, as fractions of the tests' own kind; and the
 * same as the program takes them.
 */
import * as fc from 'fast-check';
import type { Line, Situation } from '../../src/core/remedy/situation.ts';
import type { Limit } from '../../src/core/sheet/sheet.ts';
import { massOf, ratioOf, type Side, toleranceOf } from './as-program.ts';
import { by, type Fraction, minus, order, over, plus, wholeBelow } from './fraction.ts';

export interface SceneLine {
  readonly n: number;
  readonly phase: string;
  readonly material: string;
  readonly vessel: string;
  readonly target: Fraction;
  readonly under: Side;
  readonly over: Side;
  readonly floor: Fraction | undefined;
  readonly d: Fraction;
  readonly leastLoad: Fraction;
  readonly capacity: Fraction;
  readonly net: Fraction;
  readonly state: Line['state'];
  readonly isClosed: boolean;
  readonly canTakeBack: boolean;
}

export interface SceneAdjusting {
  readonly phase: string;
  readonly material: string;
  readonly vessel: string;
  readonly net: Fraction;
  readonly most: Fraction;
  readonly isDone: boolean;
}

export interface SceneVessel {
  readonly mass: Fraction;
  readonly holds: Fraction | undefined;
  readonly into: string | undefined;
}

export interface SceneLimit {
  readonly kind: 'share' | 'ratio';
  readonly material: string;
  /** The second material of a ratio. */
  readonly to: string;
  /** Of a share; the batch where there is none. */
  readonly phase: string | undefined;
  readonly least: Fraction | undefined;
  readonly most: Fraction | undefined;
}

export interface Scene {
  readonly lines: readonly SceneLine[];
  readonly adjusts: readonly SceneAdjusting[];
  readonly vessels: ReadonlyMap<string, SceneVessel>;
  readonly stock: ReadonlyMap<string, Fraction>;
  readonly limits: readonly SceneLimit[];
  readonly pieces: number;
}

export const none: Fraction = [0n, 1n];
export const whole = (value: bigint): Fraction => [value, 1n];
export const totalOf = (all: readonly Fraction[]): Fraction => all.reduce(plus, none);

const lineOf = (line: SceneLine): Line => ({
  n: line.n,
  phase: line.phase,
  material: line.material,
  vessel: line.vessel,
  exact: massOf(line.target),
  tolerance: toleranceOf(line),
  net: massOf(line.net),
  state: line.state,
  isClosed: line.isClosed,
  canTakeBack: line.canTakeBack,
  scale: {
    readability: massOf(line.d),
    leastLoad: massOf(line.leastLoad),
    capacity: massOf(line.capacity),
  },
});

const limitOf = ({ kind, material, to, phase, least, most }: SceneLimit): Limit => ({
  ...(kind === 'ratio'
    ? { kind, material, to }
    : { kind, material, ...(phase === undefined ? {} : { phase }) }),
  ...(least === undefined ? {} : { least: ratioOf(least) }),
  ...(most === undefined ? {} : { most: ratioOf(most) }),
  place: { line: 1, column: 1 },
});

export const perPieceOf = ({ lines, pieces }: Scene): Fraction =>
  over(totalOf(lines.map(each => each.target)), whole(BigInt(pieces)));

export const situationOf = (scene: Scene): Situation => ({
  lines: scene.lines.map(lineOf),
  adjusts: scene.adjusts.map(({ net, most, ...rest }) => ({
    ...rest,
    net: massOf(net),
    most: massOf(most),
  })),
  vessels: new Map(
    [...scene.vessels].map(([key, { mass, holds, into }]) => [
      key,
      {
        name: key,
        mass: massOf(mass),
        ...(holds === undefined ? {} : { holds: massOf(holds) }),
        ...(into === undefined ? {} : { into }),
      },
    ]),
  ),
  stock: new Map([...scene.stock].map(([key, left]) => [key, massOf(left)])),
  limits: scene.limits.map(limitOf),
  pieces: scene.pieces,
  perPiece: massOf(perPieceOf(scene)),
});

type Gen = fc.GeneratorValue;

const integer = (g: Gen, min: number, max: number): bigint => BigInt(g(fc.integer, { min, max }));
const oneOf = <T>(g: Gen, ...all: readonly T[]): T =>
  all[Number(integer(g, 0, all.length - 1))] as T;
const chance = (g: Gen, percent: number): boolean => integer(g, 1, 100) <= BigInt(percent);

const divisions: readonly Fraction[] = [
  [1n, 100n],
  [5n, 100n],
  [1n, 10n],
  [1n, 2n],
  [1n, 1n],
];

/** A side of a window; zero one time in six. */
const sideOf = (g: Gen, target: Fraction): Side => {
  if (chance(g, 17)) return { kind: oneOf(g, 'share', 'mass'), value: none };
  return chance(g, 70)
    ? { kind: 'share', value: [integer(g, 20, 300), 10_000n] }
    : { kind: 'mass', value: by(target, [integer(g, 2, 50), 1000n]) };
};

/** About so much poured: in its window, over it or under it, on a display of division d. */
const netOf = (g: Gen, target: Fraction, d: Fraction): Fraction => {
  const off = oneOf(g, 10, 10, 10, 100, 1);
  const perMille = integer(g, -off, oneOf(g, off, 20, 60, 150));
  const aimed = by(target, [1000n + perMille, 1000n]);
  return by(d, whole(wholeBelow(over(aimed, d))));
};

const widthIn = ({ target, under, over: above }: Pick<SceneLine, 'target' | 'under' | 'over'>) =>
  [under, above]
    .map(({ kind, value }) => (kind === 'share' ? by(value, target) : value))
    .reduce(plus);

/** A division of which the window holds two at least, as a plan without errors has it; none at all where both sides are zero. */
const divisionOf = (line: Pick<SceneLine, 'target' | 'under' | 'over'>, g: Gen): Fraction => {
  const width = widthIn(line);
  const able = divisions.filter(d => wholeBelow(over(width, d)) >= 2n);
  return able.length === 0 ? over(width, whole(integer(g, 2, 5))) : oneOf(g, ...able);
};

const windowOf = (g: Gen, target: Fraction): Pick<SceneLine, 'under' | 'over' | 'floor'> => {
  const [under, above] = [sideOf(g, target), sideOf(g, target)];
  const isShut = under.value[0] === 0n && above.value[0] === 0n;
  return {
    under,
    over: isShut ? { kind: 'share', value: [1n, 100n] } : above,
    floor: chance(g, 20) ? by(target, [integer(g, 1, 40), 1000n]) : undefined,
  };
};

const lineAt = (g: Gen, n: number, isLast: boolean): SceneLine => {
  const target: Fraction = [integer(g, 500, 200_000), oneOf(g, 100n, 100n, 98n, 49n, 303n)];
  const window = windowOf(g, target);
  const d = divisionOf({ target, ...window }, g);
  const isPending = isLast || chance(g, 25);
  const net = isPending ? none : netOf(g, target, d);
  const isPart = !isPending && chance(g, 10);
  return {
    n,
    phase: 'A',
    material: `m${n}`,
    vessel: 'A',
    target,
    ...window,
    d,
    leastLoad: oneOf(g, none, by(d, [7n, 2n]), by(target, [integer(g, 1, 40), 1000n])),
    capacity: whole(10_000n),
    net: isPart ? by(d, whole(wholeBelow(over(by(net, [2n, 3n]), d)))) : net,
    state: isPending || isPart ? 'open' : 'poured',
    isClosed: false,
    canTakeBack: false,
  };
};

/** Lines in one vessel with nothing but their windows to mind. */
export const windowsOnly = (g: Gen): Scene => {
  const count = Number(integer(g, 1, 7));
  const lines = Array.from({ length: count }, (_, at) =>
    lineAt(g, at + 1, at > 0 && at === count - 1 && chance(g, 50)),
  );
  return {
    lines,
    adjusts: [],
    vessels: new Map([
      ['A', { mass: totalOf(lines.map(each => each.net)), holds: undefined, into: undefined }],
    ]),
    stock: new Map(),
    limits: [],
    pieces: Number(integer(g, 1, 60)),
  };
};

const shareIn = (lines: readonly SceneLine[], part: (line: SceneLine) => boolean): Fraction =>
  over(
    totalOf(lines.filter(part).map(each => each.target)),
    totalOf(lines.map(each => each.target)),
  );

/** Close to what the sheet comes to, on either side. */
const boundNear = (g: Gen, value: Fraction): Fraction =>
  by(value, [1000n + integer(g, -3, 25), 1000n]);

const limitAt = (g: Gen, lines: readonly SceneLine[]): SceneLimit => {
  const { material, phase } = oneOf(g, ...lines);
  const isRatio = lines.length > 1 && chance(g, 30);
  const to = isRatio
    ? oneOf(g, ...lines.filter(each => each.material !== material), ...lines).material
    : material;
  const inPhase = chance(g, 30) ? phase : undefined;
  const inside = lines.filter(each => inPhase === undefined || each.phase === inPhase);
  const of = (key: string): Fraction => shareIn(lines, each => each.material === key);
  const actual =
    isRatio && to !== material
      ? over(of(material), of(to))
      : shareIn(inside, each => each.material === material);
  const bound = boundNear(g, actual);
  const isMost = chance(g, 70);
  return {
    kind: isRatio && to !== material ? 'ratio' : 'share',
    material,
    to,
    phase: inPhase,
    most: isMost ? bound : undefined,
    least: isMost ? undefined : over(actual, over(bound, actual)),
  };
};

const missing = (line: SceneLine): Fraction => {
  const left = minus(line.target, line.net);
  return left[0] > 0n && !line.isClosed ? left : none;
};

const adjustingAt = (g: Gen, vessel: string, isClosed: boolean): SceneAdjusting => {
  const most: Fraction = [integer(g, 50, 3000), 100n];
  return {
    phase: vessel,
    material: oneOf(g, 'water', 'm1'),
    vessel,
    most,
    net: by(most, [integer(g, 0, 12), 10n]),
    isDone: isClosed || chance(g, 30),
  };
};

const vesselAt = (
  g: Gen,
  key: string,
  lines: readonly SceneLine[],
  adjusts: readonly SceneAdjusting[],
): SceneVessel => {
  const inside = [...lines, ...adjusts].filter(each => each.vessel === key);
  const mass = totalOf(inside.map(each => each.net));
  const full = plus(mass, totalOf(lines.filter(each => each.vessel === key).map(missing)));
  return {
    mass,
    holds: chance(g, 60) ? by(full, [1000n + integer(g, -5, 120), 1000n]) : undefined,
    into: key === 'B' && chance(g, 30) ? 'A' : undefined,
  };
};

/** At times less than a line takes, at times hardly more than the least load. */
const capacityOf = (g: Gen, { target, leastLoad, capacity }: SceneLine): Fraction => {
  const isHeavy = order(leastLoad, by(target, [1n, 50n])) > 0n;
  if (isHeavy && chance(g, 30)) return by(leastLoad, [integer(g, 10, 22), 10n]);
  return chance(g, 20) ? plus(by(target, [integer(g, 1, 12), 10n]), leastLoad) : capacity;
};

const spread = (g: Gen, line: SceneLine, isClosed: boolean): SceneLine => {
  const vessel = line.n > 3 && !isClosed ? oneOf(g, 'A', 'B') : 'A';
  const shut = isClosed && line.n <= 2;
  const settled = line.net[0] > 0n && chance(g, 10);
  return {
    ...line,
    phase: shut ? 'C' : vessel,
    vessel: shut ? 'C' : vessel,
    material: chance(g, 15) ? 'm1' : line.material,
    isClosed: shut,
    state: settled ? 'accepted' : line.state,
    canTakeBack: chance(g, 50),
    capacity: capacityOf(g, line),
  };
};

/** Lines with everything that can stand in the way of a remedy. */
export const everything = (g: Gen): Scene => {
  const plain = windowsOnly(g);
  const isClosed = plain.lines.length > 2 && chance(g, 30);
  const lines = plain.lines.map(line => spread(g, line, isClosed));
  const adjusts = chance(g, 40) ? [adjustingAt(g, 'A', false)] : [];
  const needs = (key: string): Fraction =>
    totalOf(lines.filter(each => each.material === key).map(missing));
  const stocked = chance(g, 50) ? [oneOf(g, ...lines).material] : [];
  return {
    lines,
    adjusts,
    vessels: new Map(['A', 'B'].map(key => [key, vesselAt(g, key, lines, adjusts)])),
    stock: new Map(stocked.map(key => [key, plus(needs(key), [integer(g, 0, 6000), 100n])])),
    limits: Array.from({ length: Number(integer(g, 0, 3)) }, () => limitAt(g, lines)),
    pieces: plain.pieces,
  };
};
