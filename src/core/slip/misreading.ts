/** What the scale may have shown, for each way of misreading it. */
import {
  add,
  dividedBy,
  isZero,
  type Mass,
  noMass,
  one,
  type Ratio,
  ratio,
  ratioOf,
  subtract,
  times,
} from '../quantity/quantity.ts';
import { readReading } from '../quantity/reading.ts';
import { massIn } from '../quantity/unit.ts';
import type { Situation, SlipKind } from './slip.ts';

export interface Misreading {
  readonly kind: Exclude<SlipKind, 'last-again'>;
  readonly shown: Mass;
  /** How far off `shown` may be, since ounces are shown in coarser steps than grams. */
  readonly slack: Mass;
  /** What was subtracted from the reading. */
  readonly less?: Mass;
}

type Kind = Misreading['kind'];

const gramsInOunce = ratioOf<'g'>(massIn(one, 'oz'), massIn(one, 'g'));

const exchanges: readonly (readonly [Kind, Ratio])[] = [
  ['ounces-grams', gramsInOunce],
  ['ounces-grams', dividedBy(one, gramsInOunce)],
  ['kilograms-grams', ratio(1000n)],
  ['kilograms-grams', ratio(1n, 1000n)],
  ['point-off', ratio(10n)],
  ['point-off', ratio(1n, 10n)],
];

/** Half of the last place that was typed. */
const halfPlace = ({ typed, unit }: Situation['reading']): Mass => {
  const places = /[.,](\d+)/.exec(typed)?.[1]?.length ?? 0;
  return massIn(ratio(1n, 2n * 10n ** BigInt(places)), unit === 'lb oz' ? 'oz' : unit);
};

const exchanged = ({ reading }: Situation): readonly Misreading[] =>
  exchanges.map(([kind, factor]) => ({
    kind,
    shown: times(reading.mass, factor),
    slack: kind === 'ounces-grams' ? times(halfPlace(reading), factor) : noMass,
  }));

const subtracted = (situation: Situation): readonly Misreading[] => {
  const { reading, standing = noMass, already = noMass } = situation;
  const less = (kind: Kind, mass: Mass): readonly Misreading[] =>
    isZero(mass) ? [] : [{ kind, less: mass, shown: subtract(reading.mass, mass), slack: noMass }];
  if (isZero(standing)) return less('not-zeroed', already);
  return [
    ...less('not-zeroed', already),
    ...less('not-tared', standing),
    ...(isZero(already) ? [] : less('not-tared', add(standing, already))),
  ];
};

/** The text with each two neighbouring digits swapped in turn; a decimal point between them stays where it is. */
const swaps = (typed: string): readonly string[] =>
  [...typed.matchAll(/\d(?=[.,]?(\d))/g)].flatMap(({ 0: first, 1: second = '', index }) => {
    if (first === second) return [];
    const next = typed.indexOf(second, index + 1);
    return `${typed.slice(0, index)}${second}${typed.slice(index + 1, next)}${first}${typed.slice(next + 1)}`;
  });

// A comma would be ambiguous once the digits stand otherwise (0,123 and 1,023).
const swapped = ({ reading, scale }: Situation): readonly Misreading[] =>
  swaps(reading.typed.replace(/(\d),(?=\d)/g, '$1.')).flatMap((typed): readonly Misreading[] => {
    const meant = readReading(typed, scale);
    return meant.ok ? [{ kind: 'digits-swapped', shown: meant.mass, slack: noMass }] : [];
  });

export const misreadingsOf = (situation: Situation): readonly Misreading[] => [
  ...subtracted(situation),
  ...exchanged(situation),
  ...swapped(situation),
];
