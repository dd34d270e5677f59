/**
 * The rules of correction.md a second time, on fractions and with searches instead of formulas: what a
 * line still takes at a stretch, whether a stretch is feasible, what a finish breaks.
 */
import type { Side } from './as-program.ts';
import { by, type Fraction, minus, order, over, plus, wholeAbove, wholeBelow } from './fraction.ts';
import {
  none,
  type Scene,
  type SceneAdjusting,
  type SceneLimit,
  type SceneLine,
  totalOf,
  whole,
} from './remedy-scene.ts';

export const atOne: Fraction = [1n, 1n];

const isLess = (a: Fraction, b: Fraction): boolean => order(a, b) < 0n;
const isZero = (a: Fraction): boolean => a[0] === 0n;
const largerOf = (a: Fraction, b: Fraction): Fraction => (isLess(a, b) ? b : a);

const sideAt = ({ kind, value }: Side, target: Fraction, floor: Fraction | undefined): Fraction => {
  const side = kind === 'share' ? by(value, target) : value;
  return floor === undefined || isZero(side) ? side : largerOf(side, floor);
};

export const windowAt = (line: SceneLine, s: Fraction): readonly [Fraction, Fraction] => {
  const target = by(line.target, s);
  return [
    minus(target, sideAt(line.under, target, line.floor)),
    plus(target, sideAt(line.over, target, line.floor)),
  ];
};

export const isOver = (line: SceneLine): boolean =>
  line.state !== 'accepted' && isLess(windowAt(line, atOne)[1], line.net);

export const isUnder = (line: SceneLine): boolean =>
  line.state === 'poured' && !line.isClosed && isLess(line.net, windowAt(line, atOne)[0]);

/** Least load in divisions, one at least. */
export const leastOf = ({ leastLoad, d }: SceneLine): bigint => {
  const least = wholeAbove(over(leastLoad, d));
  return least < 1n ? 1n : least;
};

const isKept = (line: SceneLine, s: Fraction): boolean =>
  line.isClosed || (line.state === 'accepted' && order(s, atOne) === 0n);

const isEnough = (line: SceneLine, s: Fraction): boolean => {
  const isPending = isZero(line.net) && line.state === 'open';
  return isKept(line, s) || (!isPending && !isLess(line.net, windowAt(line, s)[0]));
};

/** Whether a pour of so many divisions is one that a person can make, and leaves the line in its window. */
const isGoodPour = (line: SceneLine, s: Fraction, pour: bigint): boolean => {
  const [low, high] = windowAt(line, s);
  const filled = plus(line.net, by(line.d, whole(pour)));
  const room = plus(line.net, by(line.d, whole(leastOf(line) + 2n)));
  const hasRoom = isZero(line.net) || !isLess(high, room);
  return pour >= leastOf(line) && !isLess(filled, low) && !isLess(high, filled) && hasRoom;
};

/** Divisions to pour at a stretch: 0n for none, undefined where the line cannot be brought into its window. */
export const pourAt = (line: SceneLine, s: Fraction): bigint | undefined => {
  const [low, high] = windowAt(line, s);
  if (isEnough(line, s)) {
    const isTooMuch = isLess(high, line.net) && line.state !== 'accepted' && !line.isClosed;
    return isTooMuch ? undefined : 0n;
  }
  const wished = over(minus(by(line.target, s), line.net), line.d);
  const corners = [low, high].map(end => wholeBelow(over(minus(end, line.net), line.d)));
  const tried = [leastOf(line), wholeBelow(wished), ...corners].flatMap(at => [at, at + 1n]);
  const good = tried.filter(pour => isGoodPour(line, s, pour));
  const distance = (pour: bigint): Fraction => {
    const [num, den] = minus(whole(pour), wished);
    return [num < 0n ? -num : num, den];
  };
  return good.toSorted((a, b) => {
    const nearer = order(distance(a), distance(b));
    if (nearer !== 0n) return nearer < 0n ? -1 : 1;
    return a % 2n === 0n ? -1 : 1;
  })[0];
};

export const isFeasible = ({ lines }: Pick<Scene, 'lines'>, s: Fraction): boolean =>
  lines.every(line => pourAt(line, s) !== undefined);

/** What is in of each line at the finish, in the order of the lines. */
export type Finished = readonly Fraction[];

export const finishedAt = (scene: Scene, s: Fraction): Finished | undefined => {
  const pours = scene.lines.map(line => pourAt(line, s));
  if (pours.includes(undefined)) return undefined;
  return scene.lines.map((line, at) => plus(line.net, by(line.d, whole(pours[at] ?? 0n))));
};

const fullOf = ({ net, most, isDone }: SceneAdjusting, s: Fraction): Fraction =>
  isDone ? net : largerOf(net, by(most, s));

interface Portion {
  readonly phase: string;
  readonly material: string;
  readonly mass: Fraction;
}

const portionsOf = (
  scene: Scene,
  finished: Finished,
  s: Fraction,
  atMost: boolean,
): readonly Portion[] => [
  ...scene.lines.map(({ phase, material }, at) => ({
    phase,
    material,
    mass: finished[at] ?? none,
  })),
  ...scene.adjusts.map(each => ({
    phase: each.phase,
    material: each.material,
    mass: atMost ? fullOf(each, s) : each.net,
  })),
];

const massOf = (portions: readonly Portion[], counts: (each: Portion) => boolean): Fraction =>
  totalOf(portions.filter(counts).map(each => each.mass));

const holds = (limit: SceneLimit, portions: readonly Portion[]): boolean => {
  const inside = portions.filter(
    each => limit.kind === 'ratio' || limit.phase === undefined || each.phase === limit.phase,
  );
  const part = massOf(inside, each => each.material === limit.material);
  const all = massOf(inside, each => limit.kind === 'share' || each.material === limit.to);
  if (isZero(all)) return isZero(part) || limit.most === undefined;
  return (
    (limit.most === undefined || !isLess(by(limit.most, all), part)) &&
    (limit.least === undefined || !isLess(part, by(limit.least, all)))
  );
};

/** Which limits a finish keeps, adjust steps at nothing more and at their most. */
const limitsKept = (scene: Scene, finished: Finished, s: Fraction): readonly boolean[] =>
  scene.limits.map(limit =>
    [false, true].every(atMost => holds(limit, portionsOf(scene, finished, s, atMost))),
  );

const targetAtOne = (line: SceneLine): Fraction => {
  const fresh: SceneLine = { ...line, net: none, state: 'open', isClosed: false };
  return by(line.d, whole(pourAt(fresh, atOne) ?? boundOf(fresh)));
};

/** The scene with the lines that are over as if they held their targets. */
export const withoutOverPours = (scene: Scene): Scene => {
  const over = scene.lines.filter(isOver);
  const liftedFrom = (key: string): Fraction =>
    totalOf(
      over.filter(each => each.vessel === key).map(each => minus(each.net, targetAtOne(each))),
    );
  return {
    ...scene,
    lines: scene.lines.map(line => (isOver(line) ? { ...line, net: targetAtOne(line) } : line)),
    vessels: new Map(
      [...scene.vessels].map(([key, vessel]) => [
        key,
        { ...vessel, mass: minus(vessel.mass, liftedFrom(key)) },
      ]),
    ),
  };
};

const addedTo = (scene: Scene, finished: Finished, counts: (line: SceneLine) => boolean) =>
  totalOf(
    scene.lines.map((line, at) => (counts(line) ? minus(finished[at] ?? none, line.net) : none)),
  );

const sprayed = (scene: Scene, s: Fraction, counts: (each: SceneAdjusting) => boolean): Fraction =>
  totalOf(scene.adjusts.filter(counts).map(each => minus(fullOf(each, s), each.net)));

const levelOf = (scene: Scene, finished: Finished, s: Fraction, key: string): Fraction => {
  const tipped = [...scene.vessels].filter(([, { into }]) => into === key);
  return totalOf([
    scene.vessels.get(key)?.mass ?? none,
    addedTo(scene, finished, each => each.vessel === key),
    sprayed(scene, s, each => each.vessel === key),
    ...tipped.map(([other]) => levelOf(scene, finished, s, other)),
  ]);
};

const overfull = (scene: Scene, finished: Finished, s: Fraction): readonly string[] =>
  [...scene.vessels].flatMap(([key, vessel]) =>
    vessel.holds !== undefined && isLess(vessel.holds, levelOf(scene, finished, s, key))
      ? [key]
      : [],
  );

const runOut = (scene: Scene, finished: Finished, s: Fraction): readonly string[] =>
  [...scene.stock].flatMap(([key, left]) => {
    const needs = plus(
      addedTo(scene, finished, each => each.material === key),
      sprayed(scene, s, each => each.material === key),
    );
    return isLess(left, needs) ? [key] : [];
  });

/** Lines whose pour no even split brings between the least load and the capacity of the scale. */
const unfit = ({ lines }: Scene, finished: Finished): readonly number[] =>
  lines.flatMap((line, at) => {
    const pour = wholeBelow(over(minus(finished[at] ?? none, line.net), line.d));
    const most = wholeBelow(over(line.capacity, line.d));
    const splits = Array.from({ length: 200 }, (_, weighings) => BigInt(weighings + 1));
    const fits = splits.some(
      weighings => (pour + weighings - 1n) / weighings <= most && pour / weighings >= leastOf(line),
    );
    return pour === 0n || fits ? [] : [line.n];
  });

/** All that a finish at a stretch breaks; limits only where `kept` says that they would hold. */
export const brokenBy = (
  scene: Scene,
  finished: Finished,
  s: Fraction,
  kept: readonly boolean[],
): readonly string[] => [
  ...limitsKept(scene, finished, s).flatMap((each, at) =>
    !each && kept[at] === true ? [`limit ${at}`] : [],
  ),
  ...overfull(scene, finished, s).map(key => `vessel ${key}`),
  ...runOut(scene, finished, s).map(key => `stock ${key}`),
  ...unfit(scene, finished).map(n => `scale ${n}`),
];

/** The limits that would hold without the over-pours; projected even where a line has no room. */
export const keptWithout = (scene: Scene): readonly boolean[] => {
  const plain = withoutOverPours(scene);
  const finished = plain.lines.map(line => {
    const pour = pourAt(line, atOne) ?? boundOf(line);
    return plus(line.net, by(line.d, whole(pour)));
  });
  return limitsKept(plain, finished, atOne);
};

// A line without room counts with the least that would bring it in.
const boundOf = (line: SceneLine): bigint => {
  const short = wholeAbove(over(minus(windowAt(line, atOne)[0], line.net), line.d));
  return short > leastOf(line) ? short : leastOf(line);
};
