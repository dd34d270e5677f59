import {
  grams,
  type Mass,
  millilitres,
  type Ratio,
  ratio,
  times,
  type Volume,
} from './quantity.ts';

const mass = (num: bigint, den = 1n): Mass => grams(ratio(num, den));
const volume = (num: bigint, den = 1n): Volume => millilitres(ratio(num, den));

/** Grams in one of each mass unit. Exact: the pound is 453.592 37 g, the ounce a sixteenth (NIST HB 44 App. C). */
export const massUnits: ReadonlyMap<string, Mass> = new Map([
  ['mg', mass(1n, 1000n)],
  ['g', mass(1n)],
  ['kg', mass(1000n)],
  ['oz', mass(45359237n, 1600000n)],
  ['lb', mass(45359237n, 100000n)],
]);

// The US gallon is 231 cubic inches of 2.54 cm each; all the others divide it (NIST HB 44 App. C).
const gallon = times(volume(2540n ** 3n, 1000n ** 3n), ratio(231n));
const ofGallon = (part: bigint): Volume => times(gallon, ratio(1n, part));

/** Millilitres in one of each volume unit; cup, tbsp, tsp and fl oz are US customary, exact. */
export const volumeUnits: ReadonlyMap<string, Volume> = new Map([
  ['mL', volume(1n)],
  ['L', volume(1000n)],
  ['tsp', ofGallon(768n)],
  ['tbsp', ofGallon(256n)],
  ['fl oz', ofGallon(128n)],
  ['cup', ofGallon(16n)],
]);

/** Seconds in one of each unit of time that has a fixed length. */
export const timeUnits: ReadonlyMap<string, bigint> = new Map([
  ['s', 1n],
  ['min', 60n],
  ['h', 3600n],
  ['day', 86400n],
  ['week', 604800n],
]);

/** Units that count things: a material says what one weighs or holds. */
export const countUnits: ReadonlySet<string> = new Set(['drop', 'each']);

const singular = (name: string, known: (name: string) => boolean): string | undefined => {
  if (known(name)) return name;
  return name.endsWith('s') && known(name.slice(0, -1)) ? name.slice(0, -1) : undefined;
};

/** Looks a unit up, singular or plural, case-sensitive; answers its singular name. */
export const unitNamed = (
  name: string,
  units: { readonly has: (name: string) => boolean },
): string | undefined => singular(name.replace(/\s+/g, ' '), known => units.has(known));

/** A mass of `amount` of a unit in `massUnits`. Throws a RangeError for any other unit. */
export const massIn = (amount: Ratio, name: string): Mass => {
  const factor = massUnits.get(name);
  if (factor === undefined) throw new RangeError(`${name} is not a unit of mass`);
  return times(factor, amount);
};
