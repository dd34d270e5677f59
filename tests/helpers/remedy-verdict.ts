/** Judges remedies: follows the offered ones to the finish, and looks for the reason of each that is not. */
import { expect } from 'vitest';
import { type Mass, type Ratio } from '../../src/core/quantity/quantity.ts';
import type {
  LineMass,
  OfferedRemedy,
  RefusedRemedy,
  Remedy,
} from '../../src/core/remedy/remedy.ts';
import { by, type Fraction, minus, order, over, plus, wholeBelow } from './fraction.ts';
import {
  atOne,
  brokenBy,
  type Finished,
  finishedAt,
  isFeasible,
  isOver,
  isUnder,
  keptWithout,
  leastOf,
  pourAt,
  windowAt,
  withoutOverPours,
} from './remedy-apart.ts';
import { none, perPieceOf, type Scene, type SceneLine, totalOf, whole } from './remedy-scene.ts';

const fractionOf = ({ num, den }: Ratio | Mass): Fraction => [num, den];

const massIn = (lines: readonly LineMass[], n: number): Fraction | undefined => {
  const found = lines.find(each => each.n === n);
  return found && fractionOf(found.mass);
};

/** What is in of a line when the remedy was followed to the letter. */
const followed = (line: SceneLine, { topUps, targets, lifts }: OfferedRemedy): Fraction => {
  const lifted = minus(line.net, massIn(lifts, line.n) ?? none);
  const target = massIn(targets, line.n);
  if (target !== undefined) return target;
  return plus(lifted, massIn(topUps, line.n) ?? none);
};

/** The lines that `accept` leaves out of their windows: those over, or where none is, those under. */
const leftOut = ({ lines }: Scene): readonly SceneLine[] => {
  const overPoured = lines.filter(isOver);
  return overPoured.length > 0 ? overPoured : lines.filter(isUnder);
};

const isExempt = (scene: Scene, line: SceneLine, { kind, stretch }: OfferedRemedy): boolean =>
  line.isClosed ||
  (kind === 'accept' && leftOut(scene).includes(line)) ||
  (line.state === 'accepted' && stretch.num === stretch.den);

const checkPour = (line: SceneLine, pour: Fraction): void => {
  const divisions = over(pour, line.d);
  const count = wholeBelow(divisions);
  expect(order(divisions, whole(count))).toBe(0n);
  expect(count >= leastOf(line)).toBe(true);
};

const checkLine = (scene: Scene, line: SceneLine, remedy: OfferedRemedy): Fraction => {
  const s = fractionOf(remedy.stretch);
  const net = followed(line, remedy);
  const isTakenBack = massIn(remedy.lifts, line.n) !== undefined;
  if (isExempt(scene, line, remedy)) {
    expect(order(net, line.net)).toBe(0n);
    return net;
  }
  const [low, high] = windowAt(line, s);
  expect(order(net, low) >= 0n).toBe(true);
  if (line.state !== 'accepted') expect(order(net, high) <= 0n).toBe(true);
  if (order(net, line.net) !== 0n && !isTakenBack) checkPour(line, minus(net, line.net));
  return net;
};

/** The scene from which a remedy starts out: taken back, accepted, or as it is. */
const groundOf = (scene: Scene, kind: Remedy['kind']): Scene => {
  if (kind === 'take-back') return withoutOverPours(scene);
  if (kind !== 'accept') return scene;
  const out = leftOut(scene);
  const lines = scene.lines.map(line =>
    out.includes(line) ? { ...line, state: 'accepted' as const } : line,
  );
  return { ...scene, lines };
};

const checkSize = (scene: Scene, { batchMass, pieces, surplus, stretch }: OfferedRemedy): void => {
  const s = fractionOf(stretch);
  const open = totalOf(scene.lines.filter(each => !each.isClosed).map(each => each.target));
  const shut = totalOf(scene.lines.filter(each => each.isClosed).map(each => each.net));
  expect(order(fractionOf(batchMass), plus(shut, by(open, s)))).toBe(0n);
  const isShut = scene.lines.some(each => each.isClosed);
  const extra = totalOf(surplus.map(each => fractionOf(each.mass)));
  expect(order(extra, isShut ? by(open, minus(s, atOne)) : none)).toBe(0n);
  const made = wholeBelow(over(fractionOf(batchMass), perPieceOf(scene)));
  expect(BigInt(pieces)).toBe(isShut ? BigInt(scene.pieces) : made);
};

const aLittle: Fraction = [1n, 1_000_000n];

/** A little less than the least stretch would leave a line out of its window. */
const checkLeast = (scene: Scene, s: Fraction): void => {
  const less = minus(s, aLittle);
  expect(order(less, atOne) >= 0n && isFeasible(scene, less)).toBe(false);
};

export const checkOffered = (scene: Scene, remedy: OfferedRemedy): void => {
  if (remedy.kind === 'scrap') return;
  const s = fractionOf(remedy.stretch);
  const finished: Finished = scene.lines.map(line => checkLine(scene, line, remedy));
  if (remedy.kind === 'least-stretch') checkLeast(scene, s);
  const ground = groundOf(scene, remedy.kind);
  expect(brokenBy(ground, finished, s, keptWithout(scene))).toEqual([]);
  expect(finishedAt(ground, s)?.map((each, at) => order(each, finished[at] ?? none))).toEqual(
    finished.map(() => 0n),
  );
  checkSize(scene, remedy);
};

const nameOf = ({ reason }: RefusedRemedy, scene: Scene): string => {
  switch (reason.code) {
    case 'limit': {
      const { limit } = reason.finding;
      const at = scene.limits.findIndex(
        each =>
          each.material === limit.material &&
          each.kind === limit.kind &&
          (limit.kind === 'ratio' ? each.to === limit.to : each.phase === limit.phase) &&
          (['least', 'most'] as const).every(end => {
            const [theirs, ours] = [limit[end], each[end]];
            return theirs === undefined || ours === undefined
              ? theirs === ours
              : order(fractionOf(theirs), ours) === 0n;
          }),
      );
      return `limit ${at}`;
    }
    case 'vessel-full':
      return `vessel ${reason.vessel}`;
    case 'stock-short':
      return `stock ${reason.material}`;
    case 'scale-unfit':
      return `scale ${reason.n}`;
    default:
      throw new Error(`no such reason is looked for: ${reason.code}`);
  }
};

const isCramped = (scene: Scene, n: number): boolean => {
  const line = scene.lines.find(each => each.n === n);
  return line !== undefined && pourAt(line, atOne) === undefined;
};

const piecesOf = (scene: Scene, s: Fraction): bigint =>
  -wholeBelow(by([-s[0], s[1]], whole(BigInt(scene.pieces))));

const breaksAtPieces = (scene: Scene, count: bigint): readonly string[] => {
  const s: Fraction = [count, BigInt(scene.pieces)];
  const finished = finishedAt(scene, s);
  return finished === undefined ? ['window'] : brokenBy(scene, finished, s, keptWithout(scene));
};

/** The least stretch in the list, possible or not. */
const leastOfAll = (all: readonly Remedy[]): Fraction => {
  const stretch = all.find(each => each.kind === 'least-stretch')?.stretch;
  if (stretch === undefined) throw new Error('no least stretch');
  return fractionOf(stretch);
};

/** Every count of whole pieces between the least stretch and the one that is offered is in the way of something. */
export const checkPieces = (scene: Scene, all: readonly Remedy[], offered: OfferedRemedy): void => {
  const isForced = offered.forcedBy !== undefined;
  const until = piecesOf(scene, fractionOf(offered.stretch));
  for (let count = piecesOf(scene, leastOfAll(all)); count < until; count += 1n) {
    const breaks = breaksAtPieces(scene, count);
    expect(isForced ? breaks.length > 0 : breaks[0] === 'window').toBe(true);
  }
};

/** None up to twice the batch, or to what a vessel or the stock allows, would do. */
const checkNoPieces = (scene: Scene, all: readonly Remedy[]): void => {
  if (all.find(each => each.kind === 'least-stretch')?.possible === true) return;
  for (
    let count = piecesOf(scene, leastOfAll(all));
    count <= 2n * BigInt(scene.pieces);
    count += 1n
  ) {
    const breaks = breaksAtPieces(scene, count);
    expect(breaks.length).toBeGreaterThan(0);
    if (breaks.some(each => /^(?:vessel|stock)/.test(each))) return;
  }
};

export const checkRefused = (
  scene: Scene,
  all: readonly Remedy[],
  refused: RefusedRemedy,
): void => {
  const { reason, kind } = refused;
  const overPoured = scene.lines.filter(isOver);
  switch (reason.code) {
    case 'nothing-over':
      return expect(overPoured).toEqual([]);
    case 'in-window':
      return expect(leftOut(scene)).toEqual([]);
    case 'added-since':
      return expect(
        overPoured.some(each => each.n === reason.n && (each.isClosed || !each.canTakeBack)),
      ).toBe(true);
    case 'vessel-closed':
      return expect(overPoured.some(each => each.n === reason.n && each.isClosed)).toBe(true);
    case 'pieces-fixed':
      return expect(scene.lines.some(each => each.isClosed)).toBe(true);
    case 'no-room':
      return expect(isCramped(groundOf(scene, kind), reason.n)).toBe(true);
    case 'no-size':
      // The windows of these scenes hold two divisions at least.
      throw new Error('there is always a size');
    default: {
      const ground = groundOf(scene, kind);
      if (refused.stretch === undefined) throw new Error('a reason without its stretch');
      const s = fractionOf(refused.stretch);
      expect(isFeasible(ground, s)).toBe(true);
      const finished = finishedAt(ground, s) ?? [];
      expect(brokenBy(ground, finished, s, keptWithout(scene))).toContain(nameOf(refused, scene));
      if (kind === 'whole-pieces') checkNoPieces(scene, all);
    }
  }
};
