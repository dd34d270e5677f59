/** What must not compile. The type check of the whole project fails where one of these lines would. */
import { describe, expect, it } from 'vitest';
import {
  add,
  compare,
  type Mass,
  massOf,
  millilitres,
  noMass,
  one,
  type Ratio,
  ratioOf,
  subtract,
  sum,
  times,
  type Volume,
} from '../../src/core/quantity/quantity.ts';
import { toMultiple } from '../../src/core/quantity/rounding.ts';

const volume: Volume = millilitres(one);
const mass: Mass = noMass;

describe('units that do not go together', () => {
  it('do not compile', () => {
    const wrong = [
      // @ts-expect-error a mass and a volume
      () => add(mass, volume),
      // @ts-expect-error a volume from a mass
      () => subtract(mass, volume),
      // @ts-expect-error a mass and a pure number
      () => add(mass, one),
      // @ts-expect-error a mass against a volume
      () => compare(mass, volume),
      // @ts-expect-error a volume into a mass
      () => ratioOf(mass, volume),
      // @ts-expect-error a mass times a mass
      () => times(mass, mass),
      // @ts-expect-error volumes in a sum of masses
      () => sum(mass, [volume]),
      // @ts-expect-error a volume times a pure number is no mass
      () => massOf(volume, one),
      // @ts-expect-error a mass in steps of a volume
      () => toMultiple(mass, volume, 'up'),
      // @ts-expect-error a float is no quantity
      () => add(mass, 12.5),
      // @ts-expect-error nor is a fraction without a unit
      (): Mass => ({ num: 1n, den: 2n }),
      // @ts-expect-error a mass is no pure number
      (): Ratio => mass,
      // @ts-expect-error nothing is changed in place
      () => (mass.num = 2n),
    ];
    expect(wrong).toHaveLength(13);
  });
});
