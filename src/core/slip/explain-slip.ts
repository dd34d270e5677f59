import { noMass } from '../quantity/quantity.ts';
import { showMass } from '../quantity/show.ts';
import type { Misreading } from './misreading.ts';
import type { Situation, Slip } from './slip.ts';

type Words = Pick<Slip, 'asks' | 'todo'>;

/** The question that a likely misreading puts to the maker, and what follows from a yes. */
export const explainSlip = (
  { kind, shown, less = noMass }: Misreading,
  { reading, scale }: Situation,
): Words => {
  const [was, meant, off] = [reading.mass, shown, less].map(mass => showMass(mass, scale));
  const lookAgain = `Look at the display. If it shows ${meant}, correct the reading.`;
  const otherUnit = `Look at the unit on the display. If it is not the one typed, ${meant} is right: correct the reading.`;
  switch (kind) {
    case 'not-zeroed':
      return {
        asks: `Did the display still count the ${off} already on it (not zeroed)? ${was} less that is ${meant}.`,
        todo: `If it did, ${meant} is right: correct the reading.`,
      };
    case 'not-tared':
      return {
        asks: `Did the display still count the ${off} that stood on it (not tared)? ${was} less that is ${meant}.`,
        todo: `If it did, ${meant} is right: correct the reading.`,
      };
    case 'ounces-grams':
      return { asks: `Were ounces and grams exchanged? Then it is ${meant}.`, todo: otherUnit };
    case 'kilograms-grams':
      return { asks: `Were kilograms and grams exchanged? Then it is ${meant}.`, todo: otherUnit };
    case 'point-off':
      return { asks: `Is the point one place off? Or was it ${meant}?`, todo: lookAgain };
    case 'digits-swapped':
      return { asks: `Were two digits swapped? Or was it ${meant}?`, todo: lookAgain };
  }
};

export const explainLastAgain = ({ reading, scale }: Situation): Words => ({
  asks: `Is that the reading before, once more? It was ${showMass(reading.mass, scale)} too.`,
  todo: 'Wait until the display is steady, then correct the reading to what it shows.',
});
