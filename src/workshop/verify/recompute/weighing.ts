/** One addition a second time: its pours, and the net that each reading comes to. */
import { toExact } from '../../../core/quantity/decimal.ts';
import {
  add,
  isLess,
  isMore,
  isZero,
  type Mass,
  noMass,
  subtract,
} from '../../../core/quantity/quantity.ts';
import type { Part, Verdict, Way } from '../../../core/run/event.ts';
import type { Line } from './plan-again.ts';

export type Window = Pick<Line, 'low' | 'high'>;

/** What went in between two tares, from one lot. */
export interface Pour {
  readonly lot?: string;
  readonly net: Mass;
  readonly waste: Mass;
}

export interface Weighing {
  readonly line: Line;
  /** The windows of its weighings, where it is planned as several. */
  readonly parts: readonly Window[];
  readonly earlier: readonly Pour[];
  readonly pour: Pour;
  /** How many weighings came to their part, and which of the earlier pours is the first of the one in hand. */
  readonly partsDone: number;
  readonly partFrom: number;
  readonly way: Way;
  readonly part: Part;
  /** The number of the last reading's event. */
  readonly seq: number;
  readonly before?: Mass;
  readonly cup?: Mass;
  /** Of the last reading that weighed something in. */
  readonly verdict?: Verdict;
  readonly isAccepted: boolean;
  /** Nothing is left to pour; a witness may still be due. */
  readonly isSettled: boolean;
  /** The number of the reading of which a person said whether it was read wrongly. */
  readonly answered?: number;
}

const nothing: Pour = { net: noMass, waste: noMass };

export const weighingOf = (line: Line, parts: readonly Window[] = []): Weighing => ({
  line,
  parts,
  earlier: [],
  pour: nothing,
  partsDone: 0,
  partFrom: 0,
  way: 'net',
  part: 'display',
  seq: 0,
  isAccepted: false,
  isSettled: false,
});

const isUsed = ({ net, waste }: Pour): boolean => !isZero(net) || !isZero(waste);

/** All pours that put something in or had something lifted out. */
export const poursOf = ({ earlier, pour }: Weighing): readonly Pour[] =>
  [...earlier, pour].filter(isUsed);

export const totalOf = ({ earlier, pour }: Weighing): Mass =>
  earlier.reduce((total, each) => add(total, each.net), pour.net);

/** After a tare or with a new lot: what is poured from here on adds to what is in. */
export const newPour = (weighing: Weighing, lot: string | undefined): Weighing => {
  const { before: _before, cup: _cup, ...rest } = weighing;
  const earlier = isUsed(weighing.pour) ? [...weighing.earlier, weighing.pour] : weighing.earlier;
  const part = isUsed(weighing.pour) ? partVerdict(weighing) : undefined;
  const isNext = part === 'in' || part === 'over';
  return {
    ...rest,
    ...(isNext ? { partsDone: weighing.partsDone + 1, partFrom: earlier.length } : {}),
    earlier,
    pour: lot === undefined ? nothing : { ...nothing, lot },
  };
};

/** What stood in and under the vessel before the present pour. */
export interface Standing {
  readonly tare: Mass;
  readonly contents: Mass;
}

/** Net of the present pour when the display shows `shown`; undefined for `before`. */
const netOf = (weighing: Weighing, shown: Mass, standing: Standing): Mass | undefined => {
  if (weighing.part === 'before') return undefined;
  if (weighing.part === 'after') return subtract(weighing.before ?? noMass, shown);
  if (weighing.part === 'residue') return subtract(weighing.cup ?? noMass, shown);
  if (weighing.way !== 'gross') return shown;
  const others = subtract(standing.contents, weighing.pour.net);
  return subtract(shown, add(standing.tare, others));
};

export const verdictOf = (value: Mass, { low, high }: Window): Verdict => {
  if (isLess(value, low)) return 'under';
  return isMore(value, high) ? 'over' : 'in';
};

const kept = (weighing: Weighing, shown: Mass): Weighing => {
  if (weighing.part === 'before') return { ...weighing, before: shown };
  return weighing.way === 'cup' && weighing.part === 'display'
    ? { ...weighing, cup: shown }
    : weighing;
};

/** The weighing after a reading in its present way and part; a later reading of a pour replaces the one before. */
export const readInto = (weighing: Weighing, shown: Mass, standing: Standing): Weighing => {
  const net = netOf(weighing, shown, standing);
  if (net === undefined) return kept(weighing, shown);
  const poured = { ...kept(weighing, shown), pour: { ...weighing.pour, net } };
  return { ...poured, verdict: verdictOf(totalOf(poured), weighing.line) };
};

/** The window of the weighing in hand; undefined where there is only one. */
const partOf = ({ parts, partsDone }: Weighing): Window | undefined =>
  parts[Math.min(partsDone, parts.length - 1)];

/** How the weighing in hand lies in its own window, all its lots together. */
const partVerdict = (weighing: Weighing): Verdict | undefined => {
  const part = partOf(weighing);
  const { earlier, partFrom, pour } = weighing;
  const net = earlier.slice(partFrom).reduce((total, each) => add(total, each.net), pour.net);
  return part && verdictOf(net, part);
};

/** As an event says it; undefined after a `before`, which weighs nothing in yet. */
export const judgedText = (weighing: Weighing) => {
  if (weighing.part === 'before') return undefined;
  const part = partVerdict(weighing);
  return {
    net: toExact(weighing.pour.net),
    total: toExact(totalOf(weighing)),
    ...(part === undefined ? {} : { part }),
    verdict: weighing.verdict,
  };
};
