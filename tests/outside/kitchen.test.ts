/**
 * Kitchen measures through a density: the portion weights of the USDA National Nutrient Database (SR26,
 * public domain) give each food's density by its cup, and smaller measures of it are then predicted.
 * The published weights are rounded, and some were weighed apart, so the bounds are theirs.
 */
import { existsSync, readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { toExact } from '../../src/core/quantity/decimal.ts';
import {
  absolute,
  gramsPerMillilitre,
  isMore,
  type Mass,
  massOf,
  ratio,
  ratioOf,
  subtract,
  times,
} from '../../src/core/quantity/quantity.ts';
import { unitNamed, volumeUnits } from '../../src/core/quantity/unit.ts';
import { mass, number, percent } from '../helpers/sheet.ts';

interface Portion {
  readonly food: string;
  readonly measure: string;
  readonly weight: Mass;
}

const file = new URL('../../../shared/reference/data/usda-sr/WEIGHT.subset.txt', import.meta.url);

const words: ReadonlyMap<string, string> = new Map([
  ['tablespoon', 'tbsp'],
  ['teaspoon', 'tsp'],
]);

// ~02047~^3^1^~cup~^292^^ : food, row, how many, measure, grams.
const readPortions = (): readonly Portion[] =>
  readFileSync(file, 'utf8')
    .split('\n')
    .flatMap(line => {
      const [food = '', , count = '', measure = '', grams = ''] = line
        .replaceAll('~', '')
        .split('^');
      const unit = unitNamed(words.get(measure) ?? measure, volumeUnits);
      return unit === undefined
        ? []
        : [
            {
              food,
              measure: unit,
              weight: times(mass(grams), ratioOf(ratio(1n), number(count.replace(/^\./, '0.')))),
            },
          ];
    });

const portions = existsSync(file) ? readPortions() : undefined;

const one = (food: string, measure: string): Mass => {
  const found = portions?.find(each => each.food === food && each.measure === measure);
  if (found === undefined) throw new Error(`no ${measure} of ${food}`);
  return found.weight;
};

const volume = (unit: string) => {
  const found = volumeUnits.get(unit);
  if (found === undefined) throw new Error(`no unit ${unit}`);
  return found;
};

/** Grams in one cup over millilitres in one cup, exactly. */
const densityOf = (food: string) => {
  const grams = one(food, 'cup');
  const { num, den } = volume('cup');
  return gramsPerMillilitre(times(ratio(grams.num, grams.den), ratio(den, num)));
};

const isWithin = (a: Mass, b: Mass, share: string): boolean =>
  !isMore(absolute(subtract(a, b)), times(b, percent(share)));

describe.skipIf(portions === undefined)(
  'published portion weights (skipped where the file is absent)',
  () => {
    // NDB numbers: oils of coconut, olive, sunflower, cocoa butter, almond and shea.
    it.each(['04047', '04053', '04060', '04501', '04506', '04529', '04536'])(
      'food %s: a cup is sixteen tablespoons within half a per cent',
      food => {
        const predicted = massOf(volume('tbsp'), densityOf(food));
        expect(predicted).toEqual(times(one(food, 'cup'), ratio(1n, 16n)));
        expect(isWithin(predicted, one(food, 'tbsp'), '0.5')).toBe(true);
      },
    );

    it.each(['04047', '04053', '04501'])('oil %s: a teaspoon is 4.5 g, as published', food => {
      const predicted = massOf(volume('tsp'), densityOf(food));
      expect(isWithin(predicted, one(food, 'tsp'), '2')).toBe(true);
    });

    it('olive oil agrees to the digit: 216 g a cup are 4.5 g a teaspoon', () => {
      expect(massOf(volume('tsp'), densityOf('04053'))).toEqual(mass('4.5'));
    });

    it('table salt differs as its published weights do: 292 g a cup are 6.08 g a teaspoon, not 6.0', () => {
      expect(toExact(massOf(volume('tsp'), densityOf('02047')))).toBe('73/12');
      expect(isWithin(massOf(volume('tsp'), densityOf('02047')), one('02047', 'tsp'), '1.5')).toBe(
        true,
      );
    });
  },
);

describe('a density that a sheet states', () => {
  // Water at 20 °C is 0.9982071 g/mL (Perry, CRC); the cup is 236.588 236 5 mL.
  it('gives a cup of water', () => {
    const water = gramsPerMillilitre(number('0.9982071'));
    expect(toExact(massOf(volume('cup'), water))).toBe('236.16405745077915');
  });
});
