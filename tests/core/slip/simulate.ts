/**
 * Benches, right pours that are misread, and real mispours, all invented by chance from a seed; and how
 * often the slip is named. `tests/bench/slips.mjs` prints the figures for as many as one likes.
 */
import { toDecimal } from '../../../src/core/quantity/decimal.ts';
import { type Display, decimalsOf, inUnit } from '../../../src/core/quantity/display.ts';
import {
  absolute,
  add,
  isEqual,
  isMore,
  larger,
  type Mass,
  noMass,
  ratio,
  ratioOf,
  subtract,
  sum,
  times,
} from '../../../src/core/quantity/quantity.ts';
import { type Reading, readReading } from '../../../src/core/quantity/reading.ts';
import { toMultiple, toWhole } from '../../../src/core/quantity/rounding.ts';
import { massIn } from '../../../src/core/quantity/unit.ts';
import type { Situation, SlipKind } from '../../../src/core/slip/slip.ts';
import { likelySlip } from '../../../src/core/slip/slips.ts';
import { mass, number } from '../../helpers/sheet.ts';

type Random = () => number;

/** Mulberry32, a published generator in the public domain: the same numbers for the same seed. */
const randomFrom = (seed: number): Random => {
  let state = seed | 0;
  return () => {
    state = (state + 0x6d2b79f5) | 0;
    let mixed = Math.imul(state ^ (state >>> 15), state | 1);
    mixed ^= mixed + Math.imul(mixed ^ (mixed >>> 7), mixed | 61);
    return ((mixed ^ (mixed >>> 14)) >>> 0) / 2 ** 32;
  };
};

const whole = (random: Random, least: number, most: number): number =>
  least + Math.floor(random() * (most - least + 1));

const logWhole = (random: Random, least: number, most: number): number =>
  Math.round(least * (most / least) ** random());

const pick = <T>(random: Random, all: readonly T[]): T => all[whole(random, 0, all.length - 1)]!;

const scale = (unit: string, readability: string, capacity: string): Display => ({
  unit,
  readability: massIn(number(readability), unit),
  capacity: massIn(number(capacity), unit),
});

const scales: readonly Display[] = [
  scale('g', '0.1', '10000'),
  scale('g', '0.01', '200'),
  scale('g', '0.01', '2000'),
  scale('g', '0.5', '5000'),
  scale('g', '1', '15000'),
  scale('kg', '0.001', '30'),
  scale('oz', '0.05', '176'),
];

const tolerances = ['0.005', '0.01', '0.02', '0.03', '0.05'];

/** One line at a bench: `poured` is inside the window. */
interface Scene extends Omit<Situation, 'reading'> {
  readonly poured: Mass;
  readonly standing: Mass;
  readonly already: Mass;
}

const divisions = (count: number, of: Display): Mass => times(of.readability, ratio(BigInt(count)));

const inDivisions = (of: Mass, { readability }: Display): number =>
  Number(toWhole(ratioOf<'g'>(of, readability), 'down'));

const sceneFrom = (random: Random): Scene => {
  const scale = pick(random, scales);
  const room = inDivisions(scale.capacity, scale);
  const lines = Array.from({ length: whole(random, 0, 6) }, () =>
    divisions(logWhole(random, 100, room / 8), scale),
  );
  const target = add(
    divisions(logWhole(random, 100, room / 3), scale),
    times(scale.readability, ratio(BigInt(whole(random, 0, 6)), 7n)),
  );
  const side = larger(
    times(target, number(pick(random, tolerances))),
    times(scale.readability, ratio(2n)),
  );
  const window = { low: subtract(target, side), high: add(target, side) };
  const least = toMultiple(window.low, scale.readability, 'up');
  const steps = inDivisions(subtract(window.high, least), scale);
  const poured = add(least, divisions(whole(random, 0, steps), scale));
  const already = sum(noMass, lines);
  const vessel = toMultiple(
    mass(String(logWhole(random, 50, 3000))),
    scale.readability,
    'half-even',
  );
  const fits = !isMore(sum<'g'>(vessel, [already, poured]), scale.capacity);
  const cup = toMultiple(mass(String(logWhole(random, 5, 80))), scale.readability, 'half-even');
  const before = lines.at(-1);
  return {
    scale,
    target,
    window,
    poured,
    isFinished: true,
    totalIf: shown => shown,
    standing: fits ? vessel : cup,
    already: fits ? already : noMass,
    ...(before && { previous: before }),
  };
};

/** What the display shows of a mass in a unit, with so many decimals. */
const display = (shown: Mass, unit: string, places: number): string =>
  toDecimal(inUnit(shown, unit), places, 'half-even');

const own = (shown: Mass, { scale }: Scene): string =>
  display(shown, scale.unit, decimalsOf(scale));

/** In another unit, typed without it or with the wrong one. */
const inOther = (random: Random, scene: Scene, other: string): string => {
  const { scale, poured } = scene;
  if (random() < 0.5) return `${own(poured, scene)} ${other}`;
  // Ounces are typed with as many decimals as the scale has, or the reading would be refused.
  const places = other === 'kg' ? decimalsOf(scale, other) : decimalsOf(scale);
  return display(poured, other, places);
};

const shiftPoint = (random: Random, scene: Scene): string => {
  const places = decimalsOf(scene.scale);
  const shown = inUnit(scene.poured, scene.scale.unit);
  return random() < 0.5 && places > 0
    ? toDecimal(times(shown, ratio(10n)), places - 1, 'half-even')
    : toDecimal(times(shown, ratio(1n, 10n)), places + 1, 'half-even').replace(/\.?0+$/, '');
};

const swapDigits = (random: Random, text: string): string | undefined => {
  const places = Array.from(text.matchAll(/\d/g), ({ index }) => index);
  const at = whole(random, 0, places.length - 2);
  const [left = 0, right = 0] = places.slice(at, at + 2);
  const [first = '', second = ''] = [text[left], text[right]];
  if (first === second) return undefined;
  return `${text.slice(0, left)}${second}${text.slice(left + 1, right)}${first}${text.slice(right + 1)}`;
};

/** What is typed of a right pour, by each way of misreading it; undefined where the bench has no such way. */
const misread: Readonly<Record<SlipKind, (scene: Scene, random: Random) => string | undefined>> = {
  'last-again': scene => scene.previous && own(scene.previous, scene),
  'not-zeroed': scene =>
    isEqual(scene.already, noMass) ? undefined : own(add(scene.poured, scene.already), scene),
  'not-tared': scene => own(sum<'g'>(scene.poured, [scene.already, scene.standing]), scene),
  'ounces-grams': (scene, random) =>
    scene.scale.unit === 'kg'
      ? undefined
      : inOther(random, scene, scene.scale.unit === 'g' ? 'oz' : 'g'),
  'kilograms-grams': (scene, random) =>
    scene.scale.unit === 'oz'
      ? undefined
      : inOther(random, scene, scene.scale.unit === 'g' ? 'kg' : 'g'),
  'point-off': (scene, random) => shiftPoint(random, scene),
  'digits-swapped': (scene, random) => swapDigits(random, own(scene.poured, scene)),
};

export const slipKinds = Object.keys(misread) as readonly SlipKind[];

const widths = (count: bigint, { window }: Scene): Mass =>
  times(subtract(window.high, window.low), ratio(count));

const isWithin = (shown: Mass, scene: Scene, count: bigint): boolean =>
  !isMore(absolute(subtract(shown, scene.target)), widths(count, scene));

const situationOf = (scene: Scene, reading: Reading): Situation => ({ ...scene, reading });

export interface Named {
  readonly kind: SlipKind;
  /** Right pours misread in this way, taken by the reader, more than three widths off the target. */
  readonly misread: number;
  /** Of these: this slip was named first. */
  readonly named: number;
  /** Misread as well, but refused by the reader with a sentence of its own, before any slip is looked for. */
  readonly refused: number;
  /** Misread as well, but in the window or within three widths. */
  readonly near: number;
}

/** Misreads right pours in one way until `count` of them count, or a hundred times as many were tried. */
export const simulateKind = (kind: SlipKind, count: number, seed: number): Named => {
  const random = randomFrom(seed);
  let [counted, named, refused, near] = [0, 0, 0, 0];
  for (let tries = 0; counted < count && tries < 100 * count; tries += 1) {
    const scene = sceneFrom(random);
    const typed = misread[kind](scene, random);
    if (typed === undefined) continue;
    const reading = readReading(typed, scene.scale);
    if (!reading.ok) refused += 1;
    else if (isWithin(reading.mass, scene, 3n)) near += 1;
    else {
      counted += 1;
      if (likelySlip(situationOf(scene, reading))?.kind === kind) named += 1;
    }
  }
  return { kind, misread: counted, named, refused, near };
};

export interface Called {
  readonly mispours: number;
  /** Of these: called a slip of any kind. */
  readonly called: number;
}

/** Real mispours, over or finished too early, within three widths of the target. */
export const simulateMispours = (count: number, seed: number): Called => {
  const random = randomFrom(seed);
  let [mispours, called] = [0, 0];
  while (mispours < count) {
    const scene = sceneFrom(random);
    const span = widths(6n, scene);
    const low = subtract(scene.target, widths(3n, scene));
    const off = times(span, ratio(BigInt(whole(random, 0, 1_000_000)), 1_000_000n));
    const shown = toMultiple(add(low, off), scene.scale.readability, 'half-even');
    const reading = readReading(own(shown, scene), scene.scale);
    const isIn = !isMore(scene.window.low, shown) && !isMore(shown, scene.window.high);
    if (!reading.ok || isIn || !isWithin(shown, scene, 3n)) continue;
    mispours += 1;
    if (likelySlip(situationOf(scene, reading)) !== undefined) called += 1;
  }
  return { mispours, called };
};
