import { beyondWindow, verdictOf } from '../plan/window.ts';
import {
  absolute,
  add,
  compare,
  isEqual,
  isMore,
  larger,
  type Mass,
  type Ratio,
  ratio,
  ratioOf,
  subtract,
} from '../quantity/quantity.ts';
import { explainLastAgain, explainSlip } from './explain-slip.ts';
import { type Misreading, misreadingsOf } from './misreading.ts';
import type { Situation, Slip } from './slip.ts';

/** A window's width, one division at least. */
const widthOf = ({ window, scale }: Situation): Mass =>
  larger(subtract(window.high, window.low), scale.readability);

const couldBeASlip = (situation: Situation): boolean => {
  const side = verdictOf(situation.totalIf(situation.reading.mass), situation.window);
  return side === 'over' || (side === 'under' && situation.isFinished);
};

// A pour goes into the middle of its window rather than to its edge, so closeness tells. Chance offers
// a swap or a shifted point more often than the rest: each counts as so many widths further away.
const handicap: Readonly<Record<Misreading['kind'], Ratio>> = {
  'not-zeroed': ratio(0n),
  'not-tared': ratio(0n),
  'ounces-grams': ratio(1n, 4n),
  'kilograms-grams': ratio(1n, 4n),
  'point-off': ratio(1n, 2n),
  'digits-swapped': ratio(1n, 2n),
};

/** How far a mass is off the target, in widths of the window. */
const widthsOff = (total: Mass, situation: Situation): Ratio =>
  ratioOf<'g'>(absolute(subtract(total, situation.target)), widthOf(situation));

const rankOf = ({ kind, shown }: Misreading, situation: Situation): Ratio =>
  add(handicap[kind], widthsOff(situation.totalIf(shown), situation));

const nearest = ratio(3n);
const closest = ratio(1n, 4n);

// A reading within three widths is far more often a pour that went a little wrong. There a slip is
// named only where it would put the pour close to its target, and swapped digits never.
const isNamed = ({ kind, shown }: Misreading, situation: Situation): boolean =>
  isMore(widthsOff(situation.totalIf(situation.reading.mass), situation), nearest) ||
  (kind !== 'digits-swapped' && !isMore(widthsOff(situation.totalIf(shown), situation), closest));

const toSlip = (misreading: Misreading, situation: Situation): Slip => ({
  kind: misreading.kind,
  shown: misreading.shown,
  mass: situation.totalIf(misreading.shown),
  ...explainSlip(misreading, situation),
});

const explaining = (situation: Situation): readonly Misreading[] =>
  misreadingsOf(situation)
    .filter(({ shown, slack }) => {
      const off = absolute(beyondWindow(situation.totalIf(shown), situation.window));
      return !isMore(off, slack);
    })
    .toSorted((a, b) => compare(rankOf(a, situation), rankOf(b, situation)));

const isLastAgain = ({ reading, previous }: Situation): boolean =>
  previous !== undefined && isEqual(reading.mass, previous);

/**
 * The slips that would explain a reading out of its window, the likeliest first: one that repeats the
 * last reading to the digit, then by how near to the target the right one would be. Empty for a
 * reading in its window, and for one under it while the pour goes on.
 */
export const slips = (situation: Situation): readonly Slip[] => {
  if (!couldBeASlip(situation)) return [];
  const found = explaining(situation)
    .filter(each => isNamed(each, situation))
    .map(each => toSlip(each, situation));
  return isLastAgain(situation)
    ? [{ kind: 'last-again', ...explainLastAgain(situation) }, ...found]
    : found;
};

export const likelySlip = (situation: Situation): Slip | undefined => slips(situation)[0];

/**
 * Slips that would explain the reading too, but less likely than a pour that went a little wrong: only
 * to be mentioned below the remedies ("Or was it 100.2 g?").
 */
export const mentionedSlips = (situation: Situation): readonly Slip[] =>
  couldBeASlip(situation)
    ? explaining(situation)
        .filter(each => !isNamed(each, situation))
        .map(each => toSlip(each, situation))
    : [];
