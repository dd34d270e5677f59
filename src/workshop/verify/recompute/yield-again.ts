/** The yield a second time (21 CFR 210.3, 211.103), and the spread of the piece weights. */
import { toDecimal, toExact } from '../../../core/quantity/decimal.ts';
import {
  dividedBy,
  grams,
  isZero,
  type Mass,
  noMass,
  one,
  type Ratio,
  ratio,
  ratioOf,
  subtract,
  sum,
  times,
  zero,
} from '../../../core/quantity/quantity.ts';
import type { YieldResult } from '../../../core/result/record.ts';
import type { TallyItem } from '../../../core/run/event.ts';
import { massFrom } from './exact-text.ts';
import type { Replayed } from './replayed.ts';

/** The greatest whole number whose square is at most `value` (Newton's method from above). */
const wholeRoot = (value: bigint): bigint => {
  if (value < 2n) return value;
  let guess = 1n << BigInt(Math.ceil(value.toString(2).length / 2));
  for (;;) {
    const next = (guess + value / guess) >> 1n;
    if (next >= guess) return guess;
    guess = next;
  }
};

/** The square root to so many decimals, ties to even; exact, with no floating point on the way. */
export const rootToDecimal = (value: Ratio, places: number): string => {
  const unit = 10n ** BigInt(places);
  const scaled = value.num * unit * unit;
  const below = wholeRoot(scaled / value.den);
  // Above the half when (2·below + 1)² < 4·scaled/den; exactly on it, the even neighbour.
  const half = (2n * below + 1n) ** 2n * value.den;
  const isUp = half < 4n * scaled || (half === 4n * scaled && below % 2n === 1n);
  return toDecimal(ratio(isUp ? below + 1n : below, unit), places, 'half-even');
};

const meanOf = (weights: readonly Mass[]): Mass =>
  dividedBy(sum(noMass, weights), ratio(BigInt(weights.length)));

const squared = (mass: Mass): Ratio => {
  const number = ratioOf<'g'>(mass, grams(one));
  return times(number, number);
};

const spreadOf = (weights: readonly Mass[]): string => {
  const mean = meanOf(weights);
  const squares = sum(
    zero,
    weights.map(each => squared(subtract(each, mean))),
  );
  return rootToDecimal(dividedBy(squares, ratio(BigInt(weights.length - 1))), 4);
};

const countOf = ({ tallied }: Replayed, item: TallyItem): number =>
  tallied.reduce((total, each) => (each.item === item ? total + Number(each.value) : total), 0);

const massOfItem = ({ tallied }: Replayed, item: TallyItem): string =>
  toExact(
    sum(
      noMass,
      tallied.filter(each => each.item === item).map(each => massFrom(each.value)),
    ),
  );

/** Undefined where nothing was tallied. */
export const yieldAgain = (replayed: Replayed, massIn: Mass): YieldResult | undefined => {
  const { sheet } = replayed;
  const tallied = replayed.tallied.toSorted((a, b) => a.step - b.step);
  if (tallied.length === 0) return undefined;
  const { fill, loss } = sheet.makes;
  const theoretical = ratioOf<'g'>(massIn, fill);
  const actual = countOf(replayed, 'good') + countOf(replayed, 'samples');
  const share = isZero(theoretical)
    ? zero
    : ratioOf<'1'>(ratio(BigInt(actual) * 100n), theoretical);
  const weights = tallied.filter(each => each.item === 'weight').map(each => massFrom(each.value));
  return {
    theoretical: toDecimal(theoretical, 2, 'half-even'),
    expected: toDecimal(times(theoretical, subtract(one, loss)), 2, 'half-even'),
    actual,
    percent: toDecimal(share, 2, 'half-even'),
    rejected: tallied
      .filter(each => each.item === 'rejected' && each.value !== '0')
      .map(each => ({ count: Number(each.value), reason: each.reason ?? '' })),
    samples: countOf(replayed, 'samples'),
    leftOver: massOfItem(replayed, 'left over'),
    crumbs: massOfItem(replayed, 'crumbs'),
    weights: weights.map(toExact),
    ...(weights.length > 0 ? { mean: toDecimal(meanOf(weights), 4, 'half-even') } : {}),
    ...(weights.length > 1 ? { spread: spreadOf(weights) } : {}),
  };
};
