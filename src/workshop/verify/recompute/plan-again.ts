/**
 * The plan a second time, from the sheet and the scales in the record: sheet.md, “Rules”. Written
 * apart from core/plan on purpose; only the exact arithmetic is shared.
 */
import { readNumber, toExact } from '../../../core/quantity/decimal.ts';
import {
  add,
  dividedBy,
  grams,
  isLess,
  isMore,
  isZero,
  type Mass,
  noMass,
  one,
  type Ratio,
  ratio,
  ratioOf,
  subtract,
  times,
} from '../../../core/quantity/quantity.ts';
import { toMultiple, toWhole } from '../../../core/quantity/rounding.ts';
import type { AdditionText, PlanText } from '../../../core/result/record.ts';
import type { ScaleText, SizeText } from '../../../core/run/event.ts';
import type {
  AddStep,
  Allowance,
  Phase,
  Sheet,
  Step,
  Tolerance,
} from '../../../core/sheet/sheet.ts';

/** A step with its number in the whole sheet and its phase; the finish has none. */
export interface NumberedStep {
  readonly n: number;
  readonly phase?: Phase;
  readonly step: Step;
}

/** An addition: exact target, exact window, and what the plan says of it. */
export interface Line {
  readonly n: number;
  readonly step: number;
  readonly phase: string;
  readonly vessel: string;
  readonly material: string;
  readonly exact: Mass;
  readonly low: Mass;
  readonly high: Mass;
}

export interface PlanAgain {
  readonly steps: readonly NumberedStep[];
  readonly batchMass: Mass;
  readonly pieces: number;
  /** Today's batch in nominal batches. */
  readonly factor: Ratio;
  /** By the number of its step. */
  readonly lines: ReadonlyMap<number, Line>;
  readonly text: PlanText;
}

/** Reads exact text of the record. Throws a RangeError for anything else. */
const numberFrom = (exact: string): Ratio => {
  const value = readNumber(exact);
  if (value === undefined) throw new RangeError(`“${exact.slice(0, 40)}” is not a number`);
  return value;
};
export const massFrom = (exact: string): Mass => grams(numberFrom(exact));

const numbered = (sheet: Sheet): readonly NumberedStep[] =>
  [
    ...sheet.phases.flatMap(phase => phase.steps.map(step => ({ phase, step }))),
    ...sheet.finish.map(step => ({ step })),
  ].map((each, index) => ({ n: index + 1, ...each }));

const shareOf = (phase: Phase, { amount }: AddStep): Ratio | undefined => {
  if (amount.kind === 'mass') return undefined;
  if (amount.kind === 'share') return amount.share;
  let rest = one;
  for (const step of phase.steps) {
    if (step.kind === 'add' && step.amount.kind === 'share')
      rest = subtract(rest, step.amount.share);
  }
  return rest;
};

/** Mass that goes in for one piece. */
const perPiece = ({ makes: { fill, loss } }: Sheet): Mass => dividedBy(fill, subtract(one, loss));

const nominalMass = (sheet: Sheet): Mass => {
  if (sheet.basis === 'percentages')
    return times(perPiece(sheet), ratio(BigInt(sheet.makes.count)));
  let total = noMass;
  for (const { step } of numbered(sheet)) {
    if (step.kind === 'add' && step.amount.kind === 'mass') total = add(total, step.amount.mass);
  }
  return total;
};

interface Sized {
  readonly batchMass: Mass;
  readonly pieces: number;
  readonly factor: Ratio;
}

const sizedBy = (sheet: Sheet, factor: Ratio): Sized => ({
  batchMass: times(nominalMass(sheet), factor),
  pieces: Number(toWhole(times(factor, ratio(BigInt(sheet.makes.count))), 'down')),
  factor,
});

const sizeAgain = (sheet: Sheet, size: SizeText): Sized => {
  if (size.by === 'sheet') return sizedBy(sheet, one);
  if (size.by === 'factor') return sizedBy(sheet, numberFrom(size.factor));
  if (size.by === 'pieces') {
    return sizedBy(sheet, ratio(BigInt(size.pieces), BigInt(sheet.makes.count)));
  }
  const batchMass = massFrom(size.mass);
  return {
    batchMass,
    pieces: Number(toWhole(ratioOf<'g'>(batchMass, perPiece(sheet)), 'down')),
    factor: ratioOf<'g'>(batchMass, nominalMass(sheet)),
  };
};

const sideOf = (side: Allowance, exact: Mass, floor: Mass | undefined): Mass => {
  const width = side.kind === 'share' ? times(exact, side.share) : side.mass;
  return floor !== undefined && !isZero(width) && isLess(width, floor) ? floor : width;
};

interface Fit {
  readonly scale: ScaleText;
  readonly target: Mass;
  readonly low: Mass;
  readonly high: Mass;
}

const fitOn = ({ exact, low, high }: Line, scale: ScaleText): Fit | undefined => {
  const d = massFrom(scale.readability);
  const least = toMultiple(low, d, 'up');
  const greatest = toMultiple(high, d, 'down');
  if (isMore(least, greatest)) return undefined;
  const nearest = toMultiple(exact, d, 'half-even');
  const target = isLess(nearest, least) ? least : isMore(nearest, greatest) ? greatest : nearest;
  return { scale, target, low: least, high: greatest };
};

const finer = (a: Fit, b: Fit): boolean => {
  const [d, e] = [massFrom(a.scale.readability), massFrom(b.scale.readability)];
  if (isLess(d, e) || isMore(d, e)) return isLess(d, e);
  return isMore(massFrom(a.scale.capacity), massFrom(b.scale.capacity));
};

const holdsHigh = (fit: Fit): boolean => !isMore(fit.high, massFrom(fit.scale.capacity));

const largestOf = (scales: readonly ScaleText[]): ScaleText | undefined =>
  scales.reduce<ScaleText | undefined>(
    (best, each) =>
      best === undefined || isMore(massFrom(each.capacity), massFrom(best.capacity)) ? each : best,
    undefined,
  );

const chooseFit = (line: Line, scales: readonly ScaleText[]): Fit => {
  const fits = scales.map(scale => fitOn(line, scale)).filter(fit => fit !== undefined);
  const [first, ...others] = fits.filter(holdsHigh);
  if (first !== undefined)
    return others.reduce((best, each) => (finer(each, best) ? each : best), first);
  const largest = largestOf(scales);
  const fit = fits.find(each => each.scale === largest);
  if (fit === undefined) throw new RangeError(`no scale can weigh addition ${line.n}`);
  return fit;
};

const additionText = (line: Line, scales: readonly ScaleText[]): AdditionText => {
  const { scale, target, low, high } = chooseFit(line, scales);
  const loads = toWhole(ratioOf<'g'>(high, massFrom(scale.capacity)), 'up');
  return {
    n: line.n,
    step: line.step,
    phase: line.phase,
    material: line.material,
    exact: toExact(line.exact),
    windowLow: toExact(line.low),
    windowHigh: toExact(line.high),
    scale: scale.name,
    target: toExact(target),
    low: toExact(low),
    high: toExact(high),
    weighings: loads > 1n ? Number(loads) : 1,
  };
};

const toleranceOf = (sheet: Sheet, step: AddStep): Tolerance => {
  const tolerance = step.tolerance ?? sheet.tolerance;
  if (tolerance === undefined) throw new RangeError('an addition has no tolerance');
  return tolerance;
};

const linesOf = (sheet: Sheet, steps: readonly NumberedStep[], size: Sized): readonly Line[] => {
  const lines: Line[] = [];
  for (const { n, phase, step } of steps) {
    if (step.kind !== 'add' || phase === undefined) continue;
    const share = shareOf(phase, step);
    const inPhase = times(size.batchMass, phase.share ?? one);
    const absolute = step.amount.kind === 'mass' ? step.amount.mass : noMass;
    const exact = share === undefined ? times(absolute, size.factor) : times(inPhase, share);
    const { under, over, floor } = toleranceOf(sheet, step);
    lines.push({
      n: lines.length + 1,
      step: n,
      phase: phase.name,
      vessel: phase.vessel.name,
      material: step.material,
      exact,
      low: subtract(exact, sideOf(under, exact, floor)),
      high: add(exact, sideOf(over, exact, floor)),
    });
  }
  return lines;
};

/** Works out the plan. Throws a RangeError where the sheet cannot be weighed with these scales. */
export const planAgain = (
  sheet: Sheet,
  size: SizeText,
  scales: readonly ScaleText[],
): PlanAgain => {
  const steps = numbered(sheet);
  const sized = sizeAgain(sheet, size);
  const lines = linesOf(sheet, steps, sized);
  const text: PlanText = {
    size,
    batchMass: toExact(sized.batchMass),
    pieces: sized.pieces,
    scales,
    additions: lines.map(line => additionText(line, scales)),
  };
  return { ...sized, steps, lines: new Map(lines.map(line => [line.step, line])), text };
};
