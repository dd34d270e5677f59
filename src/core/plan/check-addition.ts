import { toDecimal } from '../quantity/decimal.ts';
import { grams, isLess, isPositive, type Mass, type Ratio, ratio } from '../quantity/quantity.ts';
import { showGrams, showMass } from '../quantity/show.ts';
import { type Problem, problem } from '../sheet/problem.ts';
import { quote } from '../sheet/quote.ts';
import type { Place } from '../sheet/sheet.ts';
import type { Addition, Scale, Window } from './plan.ts';
import { divisionsIn } from './window.ts';

const enough = ratio(4n);
const least = ratio(2n);

// Scales show steps of 1, 2 or 5; from 500 g down to a microgram, in micrograms here.
const usualSteps: readonly Mass[] = Array.from(
  { length: 9 },
  (_, power) => 10n ** BigInt(8 - power),
)
  .flatMap(power => [5n * power, 2n * power, power])
  .map(micrograms => grams(ratio(micrograms, 1_000_000n)));

const fittingStep = (window: Window): Mass | undefined =>
  usualSteps.find(readability => !isLess(divisionsIn(window, readability), enough));

const showWindow = ({ low, high }: Window): string =>
  `${showGrams(low, 3)} to ${showGrams(high, 3)}`;

const mendOf = (window: Window): string => {
  const step = fittingStep(window);
  return step === undefined
    ? 'Widen the tolerance.'
    : `Widen the tolerance, or use a scale that shows steps of ${showMass(step, { unit: 'g', readability: step })} or finer.`;
};

const reachesZero = (place: Place, { name, window }: Addition): Problem =>
  problem(
    'window-reaches-zero',
    place,
    `${name}: the window ${showWindow(window)} would accept nothing at all.`,
    'Narrow the tolerance below the target, or make a larger batch.',
  );

const noScale = (place: Place, { name, window }: Addition): Problem =>
  problem(
    'no-scale',
    place,
    `${name}: no scale that can carry it has a reading inside the window ${showWindow(window)}.`,
    mendOf(window),
  );

const narrow = (
  place: Place,
  { name, window }: Addition,
  scale: Scale,
  divisions: Ratio,
): Problem =>
  problem(
    isLess(divisions, least) ? 'window-too-narrow' : 'window-narrow',
    place,
    `${name}: the window ${showWindow(window)} is ${toDecimal(divisions, 1, 'down')} divisions of the scale ${quote(scale.name)}, which shows steps of ${showMass(scale.readability, scale)}.`,
    mendOf(window),
  );

const severalWeighings = (place: Place, addition: Addition, scale: Scale): Problem =>
  problem(
    'several-weighings',
    place,
    `${addition.name}: ${showMass(addition.window.high, scale)} is more than any scale carries; it takes ${addition.weighings} weighings on ${quote(scale.name)}.`,
    'Go on like this, or make a smaller batch.',
  );

/** What is doubtful about one planned addition: its window against zero and against its scale. */
export const checkAddition = (place: Place, addition: Addition): readonly Problem[] => {
  const { window, onScale, weighings } = addition;
  const problems: Problem[] = isPositive(window.low) ? [] : [reachesZero(place, addition)];
  if (onScale === undefined) return [...problems, noScale(place, addition)];
  const { scale } = onScale;
  const divisions = divisionsIn(window, scale.readability);
  if (isLess(divisions, enough)) problems.push(narrow(place, addition, scale, divisions));
  if (weighings > 1) problems.push(severalWeighings(place, addition, scale));
  return problems;
};
