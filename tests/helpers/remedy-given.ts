/** Situations written in few words, as the tables of correction.md have them. */

import { toExact } from '../../src/core/quantity/decimal.ts';
import { dividedBy, noMass, sum } from '../../src/core/quantity/quantity.ts';
import { remedies } from '../../src/core/remedy/remedies.ts';
import type { LineMass, OfferedRemedy, Remedy, RemedyKind } from '../../src/core/remedy/remedy.ts';
import type { Line, Situation } from '../../src/core/remedy/situation.ts';
import { mass, number, tolerance } from './sheet.ts';

export type GivenLine = Partial<Line> & { readonly target: string; readonly in?: string };

/** ±1 %, on a scale that shows 0.1 g, carries 10 kg and has a least load of 0.1 g; in a bowl, and poured unless nothing is in. */
const lineOf = ({ target, in: net, ...more }: GivenLine, at: number): Line => ({
  n: at + 1,
  phase: 'Base',
  material: `m${at + 1}`,
  vessel: 'bowl',
  exact: mass(target),
  tolerance: tolerance('1%'),
  net: net === undefined ? noMass : mass(net),
  state: net === undefined ? 'open' : 'poured',
  isClosed: false,
  canTakeBack: false,
  scale: { readability: mass('0.1'), leastLoad: mass('0.1'), capacity: mass('10000') },
  ...more,
});

export const onScaleOf = (leastLoad: string, capacity = '10000'): Pick<Line, 'scale'> => ({
  scale: { readability: mass('0.1'), leastLoad: mass(leastLoad), capacity: mass(capacity) },
});

/** 36 pieces of what the lines come to, in a bowl that never overflows. */
export const givenLines = (
  lines: readonly GivenLine[],
  more: Partial<Situation> = {},
): Situation => {
  const total = sum(
    noMass,
    lines.map(({ target }) => mass(target)),
  );
  return {
    lines: lines.map(lineOf),
    adjusts: [],
    vessels: new Map(),
    stock: new Map(),
    limits: [],
    pieces: 36,
    perPiece: dividedBy(total, number('36')),
    ...more,
  };
};

export const remedyOf = (situation: Situation, kind: RemedyKind): Remedy => {
  const found = remedies(situation).find(each => each.kind === kind);
  if (found === undefined) throw new Error(`no ${kind}`);
  return found;
};

export const offeredOf = (situation: Situation, kind: RemedyKind): OfferedRemedy => {
  const found = remedyOf(situation, kind);
  if (!found.possible) throw new Error(`${kind}: ${found.reason.code}`);
  return found;
};

/** Why a remedy is not offered; undefined where it is. */
export const reasonOf = (situation: Situation, kind: RemedyKind): string | undefined => {
  const found = remedyOf(situation, kind);
  return found.possible ? undefined : found.reason.code;
};

/** `1: 17.8` for each line. */
export const masses = (lines: readonly LineMass[]): readonly string[] =>
  lines.map(each => `${each.n}: ${toExact(each.mass)}`);
