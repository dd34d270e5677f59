/**
 * The plan a second time, from the sheet and the scales in the record. Written apart from core/plan
 * on purpose; only the exact arithmetic is shared.
 */
import { toExact } from '../../../core/quantity/decimal.ts';
import {
  dividedBy,
  type Mass,
  noMass,
  one,
  type Ratio,
  ratio,
  ratioOf,
  subtract,
  sum,
  times,
  zero,
} from '../../../core/quantity/quantity.ts';
import { toWhole } from '../../../core/quantity/rounding.ts';
import type { AdditionText, PlanText } from '../../../core/result/record.ts';
import type { ScaleText, SizeText } from '../../../core/run/event.ts';
import type { AddStep, Phase, Sheet, Step, Tolerance } from '../../../core/sheet/sheet.ts';

import { chooseAgain } from './choose-again.ts';
import { massFrom, numberFrom } from './exact-text.ts';
import { windowAgain } from './window-again.ts';

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
  readonly tolerance: Tolerance;
  readonly exact: Mass;
  readonly low: Mass;
  readonly high: Mass;
}

interface Sized {
  readonly batchMass: Mass;
  readonly pieces: number;
  /** Today's batch in nominal batches. */
  readonly factor: Ratio;
}

export interface PlanAgain extends Omit<Sized, 'batchMass'> {
  readonly steps: readonly NumberedStep[];
  /** What the sheet weighs in for one of its pieces. */
  readonly eachPiece: Mass;
  /** By the number of its step. */
  readonly lines: ReadonlyMap<number, Line>;
  readonly text: PlanText;
}

/** All steps in the sheet's order, the finish last. */
export const numberedSteps = (sheet: Sheet): readonly NumberedStep[] =>
  [
    ...sheet.phases.flatMap(phase => phase.steps.map(step => ({ phase, step }))),
    ...sheet.finish.map(step => ({ step })),
  ].map((each, index) => ({ n: index + 1, ...each }));

const shareOf = (phase: Phase, { amount }: AddStep): Ratio | undefined => {
  if (amount.kind === 'mass') return undefined;
  if (amount.kind === 'share') return amount.share;
  const shares = phase.steps.flatMap(step =>
    step.kind === 'add' && step.amount.kind === 'share' ? [step.amount.share] : [],
  );
  return subtract(one, sum(zero, shares));
};

/** Mass that goes in for one piece. */
const perPiece = ({ makes: { fill, loss } }: Sheet): Mass => dividedBy(fill, subtract(one, loss));

const nominalMass = (sheet: Sheet): Mass => {
  if (sheet.basis === 'percentages')
    return times(perPiece(sheet), ratio(BigInt(sheet.makes.count)));
  const masses = numberedSteps(sheet).flatMap(({ step }) =>
    step.kind === 'add' && step.amount.kind === 'mass' ? [step.amount.mass] : [],
  );
  return sum(noMass, masses);
};

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

const additionText = (line: Line, scales: readonly ScaleText[]): AdditionText => {
  const chosen = chooseAgain(line, scales);
  if (chosen === undefined) throw new RangeError(`no scale can weigh addition ${line.n}`);
  return {
    n: line.n,
    step: line.step,
    phase: line.phase,
    material: line.material,
    exact: toExact(line.exact),
    windowLow: toExact(line.low),
    windowHigh: toExact(line.high),
    ...chosen,
  };
};

const linesOf = (sheet: Sheet, steps: readonly NumberedStep[], size: Sized): readonly Line[] => {
  const lines: Line[] = [];
  for (const { n, phase, step } of steps) {
    if (step.kind !== 'add' || phase === undefined) continue;
    const share = shareOf(phase, step);
    const inPhase = times(size.batchMass, phase.share ?? one);
    const absolute = step.amount.kind === 'mass' ? step.amount.mass : noMass;
    const exact = share === undefined ? times(absolute, size.factor) : times(inPhase, share);
    const tolerance = step.tolerance ?? sheet.tolerance;
    if (tolerance === undefined) throw new RangeError('an addition has no tolerance');
    lines.push({
      n: lines.length + 1,
      step: n,
      phase: phase.name,
      vessel: phase.vessel.name,
      material: step.material,
      tolerance,
      exact,
      ...windowAgain(tolerance, exact),
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
  const steps = numberedSteps(sheet);
  const sized = sizeAgain(sheet, size);
  const { batchMass, pieces, factor } = sized;
  const lines = linesOf(sheet, steps, sized);
  const text: PlanText = {
    size,
    batchMass: toExact(batchMass),
    pieces,
    scales,
    additions: lines.map(line => additionText(line, scales)),
  };
  return {
    pieces,
    factor,
    eachPiece: dividedBy(nominalMass(sheet), ratio(BigInt(sheet.makes.count))),
    steps,
    lines: new Map(lines.map(line => [line.step, line])),
    text,
  };
};
