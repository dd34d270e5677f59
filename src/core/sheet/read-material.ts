import { type DraftOf, keyed, named, optional, required } from './keys.ts';
import { density, mass, percentage, volume } from './read-quantity.ts';
import { choice, words } from './reader.ts';

export const material = keyed({
  name: required(words('Sodium bicarbonate'), 'What it is called at the bench.'),
  inci: optional(words('Sodium Bicarbonate'), 'Its name in an ingredient declaration.'),
  density: optional(density('1.05 g/mL'), 'Mass a volume, in any units: 1.05 g/mL, 128 g/cup.'),
  drop: optional(volume('0.03 mL'), 'Volume of one drop.'),
  each: optional(mass('5 g'), 'Mass of one, where it is counted.'),
  hazard: optional(words('eye irritant'), 'What to take care of when it is handled.'),
  allergens: optional(
    named(percentage('4 %', { isZeroPossible: false, isAllPossible: true })),
    'Shares of the material that a label has to name.',
  ),
  lot: optional(choice(['none']), 'none: no lot is asked for, as for tap water.'),
});

export type DraftMaterial = DraftOf<typeof material>;
