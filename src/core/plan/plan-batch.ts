import { add, isMore, isPositive, type Mass, noMass, sum, times } from '../quantity/quantity.ts';
import { inOrder } from '../sheet/in-order.ts';
import { type Problem, problem } from '../sheet/problem.ts';
import { quote } from '../sheet/quote.ts';
import type { AddStep, Phase, Sheet, Step, Vessel } from '../sheet/sheet.ts';
import { checkAddition } from './check-addition.ts';
import { assumedScales, chooseScale } from './choose-scale.ts';
import { nominalMasses } from './masses.ts';
import type { Addition, Plan, PlannedPhase, PlannedStep, Scale, SizeWish } from './plan.ts';
import { planSize } from './size.ts';
import { checkVessels, followVessels, vesselsOf } from './vessels.ts';
import { toleranceOf, windowOf } from './window.ts';

/** All that the additions of one batch are planned from. */
interface Ground {
  readonly sheet: Sheet;
  readonly scales: readonly Scale[];
  readonly vessels: ReadonlyMap<string, Vessel>;
  /** Today's exact mass of each addition, and the most of each adjust step. */
  readonly masses: ReadonlyMap<Step, Mass>;
  /** What is in its vessel when a step begins. */
  readonly before: ReadonlyMap<Step, Mass>;
}

const planAddition = (
  ground: Ground,
  phase: Phase,
  step: AddStep,
  numbers: { readonly n: number; readonly step: number },
): Addition => {
  const { sheet, scales, vessels, masses, before } = ground;
  const exact = masses.get(step) ?? noMass;
  const tolerance = toleranceOf(sheet, step);
  const window = windowOf(tolerance, exact);
  const choice = chooseScale(exact, window, scales);
  const { onScale } = choice;
  const tare = vessels.get(phase.vessel.name)?.tare ?? noMass;
  const load = sum<'g'>(tare, [before.get(step) ?? noMass, onScale?.high ?? window.high]);
  return {
    ...numbers,
    phase: phase.name,
    material: step.material,
    name: sheet.materials.get(step.material)?.name ?? step.material,
    vessel: phase.vessel.name,
    tolerance,
    exact,
    window,
    ...choice,
    place: onScale === undefined || isMore(load, onScale.scale.capacity) ? 'cup' : 'vessel',
  };
};

const planSteps = (ground: Ground): readonly PlannedStep[] => {
  const { sheet, masses } = ground;
  const steps: PlannedStep[] = [];
  let additions = 0;
  for (const phase of sheet.phases) {
    for (const step of phase.steps) {
      const planned = { n: steps.length + 1, phase: phase.name, step };
      if (step.kind === 'add') {
        additions += 1;
        const addition = planAddition(ground, phase, step, { n: additions, step: planned.n });
        steps.push({ ...planned, addition });
      } else {
        const most = masses.get(step);
        steps.push(most === undefined ? planned : { ...planned, most });
      }
    }
  }
  for (const step of sheet.finish) steps.push({ n: steps.length + 1, step });
  return steps;
};

const planPhase = (
  { vessels }: Ground,
  phase: Phase,
  all: readonly PlannedStep[],
): PlannedPhase => {
  const steps = all.filter(each => each.phase === phase.name);
  return {
    name: phase.name,
    mass: steps.reduce((total, { addition }) => add(total, addition?.exact ?? noMass), noMass),
    vessel: vessels.get(phase.vessel.name) ?? phase.vessel,
    after: phase.after,
    steps: steps.map(each => each.n),
  };
};

const notWalkedYet = (phase: Phase): readonly Problem[] => {
  const say = (what: string): Problem =>
    problem(
      'not-walked-yet',
      phase.place,
      `${quote(phase.name)} asks for ${what}, which this version reads but cannot walk yet.`,
      'Take it out of the sheet to make the batch now, or wait for a later version.',
    );
  return [
    ...(phase.portions > 1 ? [say(`${phase.portions} portions`)] : []),
    ...(phase.rework === undefined ? [] : [say('rework')]),
  ];
};

const scalesAssumed = (sheet: Sheet): Problem =>
  problem(
    'scales-assumed',
    sheet.makes.place,
    'No scale is entered yet; planned for one of 10 kg that shows 0.1 g and one of 200 g that shows 0.01 g.',
    'Enter your own scales when a run first asks for them.',
  );

/**
 * Plans today's batch. Always answers with a plan; where a problem is an error, it is not one to be
 * made. Problems come in the order of the sheet. Without scales, `assumedScales` stand in.
 */
export const planBatch = (
  sheet: Sheet,
  wish: SizeWish,
  scales: readonly Scale[],
): { readonly plan: Plan; readonly problems: readonly Problem[] } => {
  const available = scales.length === 0 ? assumedScales : scales;
  const { size, problems } = planSize(sheet, wish, available);
  const masses = new Map(
    [...nominalMasses(sheet)].map(([step, mass]) => [step, times(mass, size.factor)]),
  );
  const fillings = followVessels(sheet, masses);
  const vessels = vesselsOf(sheet);
  const ground: Ground = {
    sheet,
    scales: available,
    vessels,
    masses,
    before: new Map(fillings.map(({ step, before }) => [step, before])),
  };
  const steps = planSteps(ground);
  const plan: Plan = {
    size,
    scales: ground.scales,
    phases: sheet.phases.map(phase => planPhase(ground, phase, steps)),
    steps,
    additions: steps.flatMap(({ addition }) => addition ?? []),
  };
  const found = [
    ...problems,
    ...(scales.length === 0 ? [scalesAssumed(sheet)] : []),
    ...sheet.phases.flatMap(notWalkedYet),
    ...(isPositive(size.factor) ? checkSteps(steps) : []),
    ...checkVessels(vessels, fillings),
  ];
  return { plan, problems: inOrder(found) };
};

const checkSteps = (steps: readonly PlannedStep[]): readonly Problem[] =>
  steps.flatMap(({ step, addition }) =>
    addition === undefined ? [] : checkAddition(step.place, addition),
  );
