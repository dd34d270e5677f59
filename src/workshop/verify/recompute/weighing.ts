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
  sum,
} from '../../../core/quantity/quantity.ts';
import type { Part, Verdict, Way } from '../../../core/run/event.ts';
import type { Line } from './plan-again.ts';

export type Window = Pick<Line, 'low' | 'high'>;

/** A reading that counts for the net of its pour; `from` is what stood on the scale without the pour. */
interface Term {
  readonly seq: number;
  readonly part: Part;
  readonly shown: Mass;
  readonly from: Mass;
}

/** What went in between two tares, from one lot. */
export interface Pour {
  readonly lot?: string;
  readonly terms: readonly Term[];
  /** The vessel that holds it; absent before anything is in and once it was emptied out. */
  readonly where?: string;
  /** A gross reading was taken on top of it: its net is counted on. */
  readonly isFixed: boolean;
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
  readonly before?: Term;
  readonly cup?: Mass;
  /** Put right to outside its window after its vessel was emptied. */
  readonly isGone?: boolean;
  /** Of the last reading that weighed something in. */
  readonly verdict?: Verdict;
  readonly isAccepted: boolean;
  /** Nothing is left to pour; a witness may still be due. */
  readonly isSettled: boolean;
  /** The number of the reading of which a person said whether it was read wrongly. */
  readonly answered?: number;
}

const nothing: Pour = { terms: [], isFixed: false, net: noMass, waste: noMass };

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

export const totalOf = ({ earlier, pour }: Pick<Weighing, 'earlier' | 'pour'>): Mass =>
  sum(
    pour.net,
    earlier.map(({ net }) => net),
  );

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
  readonly name: string;
  readonly tare: Mass;
  readonly contents: Mass;
}

/** Net of the present pour when the display shows `shown`; undefined for `before`. */
const netOf = (weighing: Weighing, shown: Mass, standing: Standing): Mass | undefined => {
  if (weighing.part === 'before') return undefined;
  if (weighing.part === 'after') return subtract(weighing.before?.shown ?? noMass, shown);
  if (weighing.part === 'residue') return subtract(weighing.cup ?? noMass, shown);
  if (weighing.way !== 'gross') return shown;
  const others = subtract(standing.contents, weighing.pour.net);
  return subtract(shown, add(standing.tare, others));
};

export const verdictOf = (value: Mass, { low, high }: Window): Verdict => {
  if (isLess(value, low)) return 'under';
  return isMore(value, high) ? 'over' : 'in';
};

const termsOf = ({ part, seq, before, pour }: Weighing, shown: Mass, from: Mass): Pour['terms'] => {
  const term = { seq, part, shown, from };
  if (part === 'residue') return [...pour.terms.filter(each => each.part === 'display'), term];
  return part === 'after' && before !== undefined ? [before, term] : [term];
};

/** What the terms of a pour come to: what is left in a cup or a container is not in. */
const netOfTerms = (terms: Pour['terms']): Mass =>
  terms.reduce((net, { part, shown, from }) => {
    const isLeft = part === 'residue' || part === 'after';
    return isLeft ? subtract(net, shown) : add(net, subtract(shown, from));
  }, noMass);

const kept = (weighing: Weighing, shown: Mass): Weighing => {
  const { seq, part } = weighing;
  if (part === 'before') return { ...weighing, before: { seq, part, shown, from: noMass } };
  return weighing.way === 'cup' && weighing.part === 'display'
    ? { ...weighing, cup: shown }
    : weighing;
};

/** The weighing after a reading in its present way and part; a later reading of a pour replaces the one before. */
export const readInto = (weighing: Weighing, shown: Mass, standing: Standing): Weighing => {
  const net = netOf(weighing, shown, standing);
  if (net === undefined) return kept(weighing, shown);
  const from = weighing.way === 'gross' ? subtract(shown, net) : noMass;
  const pour = {
    ...weighing.pour,
    net,
    terms: termsOf(weighing, shown, from),
    where: standing.name,
    isFixed: false,
  };
  const poured = { ...kept(weighing, shown), pour };
  return { ...poured, verdict: verdictOf(totalOf(poured), weighing.line) };
};

/** The window of the weighing in hand; undefined where there is only one. */
const partOf = ({ parts, partsDone }: Weighing): Window | undefined =>
  parts[Math.min(partsDone, parts.length - 1)];

/** How the weighing in hand lies in its own window, all its lots together. */
const partVerdict = (weighing: Weighing): Verdict | undefined => {
  const part = partOf(weighing);
  const { earlier, partFrom, pour } = weighing;
  return part && verdictOf(totalOf({ earlier: earlier.slice(partFrom), pour }), part);
};

const judgedOf = (weighing: Weighing, pour: Pour) => {
  const part = pour === weighing.pour ? partVerdict(weighing) : undefined;
  return {
    net: toExact(pour.net),
    total: toExact(totalOf(weighing)),
    ...(part === undefined ? {} : { part }),
    verdict: weighing.verdict,
  };
};

/** As an event says it; undefined after a `before`, which weighs nothing in yet. */
export const judgedText = (weighing: Weighing) =>
  weighing.part === 'before' ? undefined : judgedOf(weighing, weighing.pour);

/** An amendment: which reading, what it showed, and the number of the amendment itself. */
interface Correction {
  readonly amends: number;
  readonly shown: Mass;
  readonly seq: number;
}

const has = ({ terms }: Pour, seq: number): boolean => terms.some(term => term.seq === seq);

const pourAmended = (pour: Pour, { amends, shown, seq }: Correction): Pour => {
  if (!has(pour, amends)) return pour;
  if (pour.isFixed || !isZero(pour.waste))
    throw new RangeError('the number that was put right had been counted on');
  const terms = pour.terms.map(term => (term.seq === amends ? { ...term, shown, seq } : term));
  return { ...pour, terms, net: netOfTerms(terms) };
};

/** The weighing with one of its readings put right, and the pour that it belongs to, if it is in one. */
export const amendedBy = (
  weighing: Weighing,
  correction: Correction,
): { readonly weighing: Weighing; readonly pour: Pour | undefined; readonly changed: Mass } => {
  const { amends, shown, seq } = correction;
  const pour = pourAmended(weighing.pour, correction);
  const earlier = weighing.earlier.map(each => pourAmended(each, correction));
  const found = [...earlier, pour].find(each => has(each, seq));
  const isBefore = weighing.before?.seq === amends;
  if (found === undefined && !isBefore)
    throw new RangeError('the number that was put right counts for nothing');
  if (weighing.parts.length > 0 && earlier.some(each => has(each, seq)))
    throw new RangeError('an earlier one of several weighings was put right');
  const isLast = weighing.seq === amends;
  const after: Weighing = {
    ...weighing,
    earlier,
    pour,
    ...(isLast ? { seq } : {}),
    ...(isLast && weighing.cup !== undefined && weighing.part === 'display' ? { cup: shown } : {}),
    ...(weighing.before !== undefined && isBefore
      ? { before: { ...weighing.before, shown, seq } }
      : {}),
  };
  return {
    weighing:
      found === undefined ? after : { ...after, verdict: verdictOf(totalOf(after), after.line) },
    pour: found,
    changed: subtract(totalOf(after), totalOf(weighing)),
  };
};

/** Whether the last reading measures the present pour. */
export const isPresent = ({ pour, seq }: Weighing): boolean => has(pour, seq);

/** As the event of an amendment says it; undefined for a container of which nothing was poured. */
export const judgedAmended = (weighing: Weighing, pour: Pour | undefined) =>
  pour && judgedOf(weighing, pour);

/** The weighing with each of its pours changed. */
export const withPours = (weighing: Weighing, change: (pour: Pour) => Pour): Weighing => ({
  ...weighing,
  earlier: weighing.earlier.map(change),
  pour: change(weighing.pour),
});
