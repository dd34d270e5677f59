import { toDecimal } from '../quantity/decimal.ts';
import { grams, isLess, isPositive, type Mass, ratio } from '../quantity/quantity.ts';
import { toMultiple } from '../quantity/rounding.ts';
import { showGrams, showMass } from '../quantity/show.ts';
import { leastLoad } from '../scale/least-load.ts';
import {
  isTooNarrowToClaim,
  showUncertainty,
  totalVariance,
  weighedOn,
} from '../scale/uncertainty.ts';
import { type Problem, problem } from '../sheet/problem.ts';
import { quote } from '../sheet/quote.ts';
import type { Place } from '../sheet/sheet.ts';
import { mostWeighings, type Quality, qualityOf } from './choose-scale.ts';
import type { Addition, Scale, WeighingPart, Window } from './plan.ts';
import { divisionsIn } from './window.ts';

// Scales show steps of 1, 2 or 5; from 500 g down to a microgram, in micrograms here.
const usualSteps: readonly Mass[] = Array.from(
  { length: 9 },
  (_, power) => 10n ** BigInt(8 - power),
)
  .flatMap(power => [5n * power, 2n * power, power])
  .map(micrograms => grams(ratio(micrograms, 1_000_000n)));

const fittingStep = (window: Window): Mass | undefined =>
  usualSteps.find(readability => !isLess(divisionsIn(window, readability), ratio(4n)));

const showWindow = ({ low, high }: Window): string =>
  `${showGrams(low, 3)} to ${showGrams(high, 3)}`;

/** The scale that would do, in words; undefined where a window has no width. */
const scaleNeeded = ({ exact, window }: Addition, isLight: boolean): string | undefined => {
  const step = fittingStep(window);
  if (step === undefined) return undefined;
  const show = (mass: Mass): string => showMass(mass, { unit: 'g', readability: step });
  const carries = `carries ${show(toMultiple(window.high, step, 'up'))}`;
  const shows = `shows steps of ${show(step)} or finer`;
  return isLight
    ? `a scale that ${carries}, ${shows} and has a least load of ${show(toMultiple(exact, step, 'down'))} or less`
    : `a scale that ${carries} and ${shows}`;
};

const mendOf = (first: string, addition: Addition, isLight = false): string => {
  const needed = scaleNeeded(addition, isLight);
  return needed === undefined ? `${first}.` : `${first}, or use ${needed}.`;
};

const reachesZero = (place: Place, { name, window }: Addition): Problem =>
  problem(
    'window-reaches-zero',
    place,
    `${name}: the window ${showWindow(window)} would accept nothing at all.`,
    'Narrow the tolerance below the target, or make a larger batch.',
  );

const noScale = (place: Place, addition: Addition): Problem =>
  problem(
    'no-scale',
    place,
    `${addition.name}: no scale can weigh it: none has a reading inside the window ${showWindow(addition.window)} and carries it in ${mostWeighings} weighings at most.`,
    mendOf('Widen the tolerance', addition),
  );

const narrow = (
  place: Place,
  addition: Addition,
  scale: Scale,
  { divisions, isTooNarrow }: Quality,
): Problem => {
  const each = addition.weighings > 1 ? 'the window of each weighing, a part of ' : '';
  return problem(
    isTooNarrow ? 'window-too-narrow' : 'window-narrow',
    place,
    `${addition.name}: ${each}the window ${showWindow(addition.window)}${each === '' ? '' : ','} is ${toDecimal(divisions, 1, 'down')} divisions of the scale ${quote(scale.name)}, which shows steps of ${showMass(scale.readability, scale)}.`,
    mendOf('Widen the tolerance', addition),
  );
};

const underLeastLoad = (
  place: Place,
  addition: Addition,
  scale: Scale,
  parts: readonly WeighingPart[],
): readonly Problem[] => {
  const lightest = leastLoad(scale);
  const target = parts.at(-1)?.target;
  if (lightest === undefined || target === undefined) return [];
  return [
    problem(
      'under-least-load',
      place,
      `${addition.name}: ${showMass(target, scale)} is less than the scale ${quote(scale.name)} is made for: ${showMass(lightest.mass, scale)} by its ${lightest.by}.`,
      mendOf('Make a larger batch', addition, true),
    ),
  ];
};

const severalWeighings = (place: Place, addition: Addition, scale: Scale): Problem =>
  problem(
    'several-weighings',
    place,
    `${addition.name}: ${showMass(addition.window.high, scale)} is more than ${quote(scale.name)} carries at once; it takes ${addition.weighings} weighings.`,
    mendOf('Go on like this, make a smaller batch', addition),
  );

const isKnown = ({ accuracyClass, repeatability }: Scale): boolean =>
  accuracyClass !== undefined || repeatability !== undefined;

/** Only where class or repeatability is known: the rounding of a display alone would claim too much. */
const unclaimable = (
  place: Place,
  { name, window }: Addition,
  scale: Scale,
  parts: readonly WeighingPart[],
): readonly Problem[] => {
  if (!isKnown(scale)) return [];
  const variance = totalVariance(parts.map(part => weighedOn(scale, part.target)));
  if (!isTooNarrowToClaim(window, variance)) return [];
  return [
    problem(
      'window-unclaimable',
      place,
      `${name}: a mass on ${quote(scale.name)} is sure to ${showUncertainty(variance, 3)} only, so no reading proves that it lies inside ${showWindow(window)}.`,
      'Nothing has to be done: readings are judged as the scale shows them. A wider tolerance or a finer scale would make it sure.',
    ),
  ];
};

/** What is doubtful about one planned addition: its window against zero and against its scale. */
export const checkAddition = (place: Place, addition: Addition): readonly Problem[] => {
  const { window, onScale } = addition;
  const problems = isPositive(window.low) ? [] : [reachesZero(place, addition)];
  if (onScale?.target === undefined) return [...problems, noScale(place, addition)];
  const { scale, target } = onScale;
  const parts = addition.parts ?? [{ target, window }];
  const quality = qualityOf(scale, parts);
  return [
    ...problems,
    ...(quality.isNarrow ? [narrow(place, addition, scale, quality)] : []),
    ...(quality.isUnderLeastLoad ? underLeastLoad(place, addition, scale, parts) : []),
    ...(parts.length > 1 ? [severalWeighings(place, addition, scale)] : []),
    ...unclaimable(place, addition, scale, parts),
  ];
};
