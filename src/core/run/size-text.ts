/** Sizes and scales as events keep them: text that says the same for ever. */
import type { Scale, SizeWish } from '../plan/plan.ts';
import { toExact, toFraction } from '../quantity/decimal.ts';
import type { Mass } from '../quantity/quantity.ts';
import { defined } from '../sheet/present.ts';
import type { ScaleText, SizeText } from './event.ts';
import { massFrom, ratioFrom } from './mass-text.ts';

const exactly = (mass: Mass | undefined): string | undefined => mass && toExact(mass);
const massOr = (text: string | undefined): Mass | undefined =>
  text === undefined ? undefined : massFrom(text);

export const scaleText = ({ name, capacity, readability, unit, ...facts }: Scale): ScaleText => ({
  name,
  capacity: toExact(capacity),
  readability: toExact(readability),
  unit,
  ...defined({
    interval: exactly(facts.interval),
    accuracyClass: facts.accuracyClass,
    leastLoad: exactly(facts.leastLoad),
    repeatability: exactly(facts.repeatability),
    lastCheck: facts.lastCheck,
  }),
});

export const readScaleText = ({
  name,
  capacity,
  readability,
  unit,
  ...facts
}: ScaleText): Scale => ({
  name,
  capacity: massFrom(capacity),
  readability: massFrom(readability),
  unit,
  ...defined({
    interval: massOr(facts.interval),
    accuracyClass: facts.accuracyClass,
    leastLoad: massOr(facts.leastLoad),
    repeatability: massOr(facts.repeatability),
    lastCheck: facts.lastCheck,
  }),
});

/** What `have` allowed is kept as the pieces that it came to: stock changes, the batch does not. */
export const sizeText = (wish: SizeWish, pieces: number): SizeText => {
  if (wish.by === 'have') return { by: 'pieces', pieces };
  if (wish.by === 'mass') return { by: 'mass', mass: toExact(wish.mass) };
  return wish.by === 'factor' ? { by: 'factor', factor: toFraction(wish.factor) } : wish;
};

export const readSizeText = (text: SizeText): SizeWish => {
  if (text.by === 'mass') return { by: 'mass', mass: massFrom(text.mass) satisfies Mass };
  return text.by === 'factor' ? { by: 'factor', factor: ratioFrom(text.factor) } : text;
};
