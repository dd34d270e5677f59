/** The batch as its remedies see it, from what the events add up to. */
import { isPositive, type Mass, noMass } from '../../../../core/quantity/quantity.ts';
import { adjustedTotal } from '../amounts.ts';
import { inDivisions, leastLoadOf } from '../choose-again.ts';
import { massFrom } from '../exact-text.ts';
import { type Replayed, scaleAt, stepNumbered, vesselAt } from '../replayed.ts';
import { totalOf, type Weighing } from '../weighing.ts';
import type { AdjustLine, Standing } from './finish.ts';
import { type Places, placesIn } from './places.ts';
import type { PourLine } from './pour-line.ts';

const stateOf = ({ verdict, isAccepted, isSettled }: Weighing) => {
  if (isAccepted) return 'accepted';
  return verdict === 'over' || isSettled ? 'poured' : 'open';
};

/** While it is in the cup still, or as long as nothing else was done in the vessel. */
const canTakeBack = (replayed: Replayed, { line, way, verdict, pour }: Weighing): boolean =>
  verdict === 'over' &&
  isPositive(pour.net) &&
  (way === 'cup' || replayed.vessels.get(vesselAt(replayed, line.step))?.lastStep === line.step);

const lineOf = (replayed: Replayed, places: Places, weighing: Weighing): PourLine => {
  const { n, step, phase, vessel, material, exact, tolerance } = weighing.line;
  const scale = scaleAt(replayed, step);
  const division = massFrom(scale.readability);
  const least = inDivisions(leastLoadOf(scale) ?? noMass, division, 'up');
  return {
    n,
    phase,
    material,
    exact,
    tolerance,
    place: places.at(step, vessel),
    net: totalOf(weighing),
    state: stateOf(weighing),
    canTakeBack: canTakeBack(replayed, weighing),
    division,
    leastDivisions: least < 1n ? 1n : least,
    capacity: massFrom(scale.capacity),
  };
};

const adjustOf = (
  replayed: Replayed,
  places: Places,
  [n, most]: readonly [number, Mass],
): AdjustLine => {
  const { phase, step } = stepNumbered(replayed, n);
  const place = places.at(n, phase?.vessel.name ?? '');
  return {
    phase: phase?.name ?? '',
    material: step.kind === 'adjust' ? step.material : '',
    place,
    net: adjustedTotal(replayed, n),
    most,
    isDone: replayed.doneAt.has(n) || place.isClosed,
  };
};

export const standingOf = (replayed: Replayed): Standing => {
  const { sheet, plan, doneAt, weighings, mosts, pieces } = replayed;
  const places = placesIn(plan.steps, n => doneAt.has(n));
  return {
    lines: [...weighings.values()].map(each => lineOf(replayed, places, each)),
    adjusts: [...mosts].map(each => adjustOf(replayed, places, each)),
    limits: sheet.limits,
    next: places.next,
    holds: name =>
      sheet.phases.find(({ vessel }) => vessel.name === name && vessel.holds !== undefined)?.vessel
        .holds,
    pieces,
    eachPiece: plan.eachPiece,
  };
};

/** Numbers of the steps whose vessel was emptied: what was poured there stays as it is. */
export const closedSteps = ({ plan, doneAt, weighings }: Replayed): ReadonlySet<number> => {
  const places = placesIn(plan.steps, n => doneAt.has(n));
  return new Set(
    [...weighings.values()]
      .map(({ line }) => line)
      .filter(({ step, vessel }) => places.at(step, vessel).isClosed)
      .map(({ step }) => step),
  );
};
