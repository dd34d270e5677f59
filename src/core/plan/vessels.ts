import { add, isMore, larger, type Mass, noMass } from '../quantity/quantity.ts';
import { showGrams } from '../quantity/show.ts';
import { type Problem, problem } from '../sheet/problem.ts';
import { quote } from '../sheet/quote.ts';
import type { Phase, Sheet, Step, Vessel } from '../sheet/sheet.ts';

/** Each vessel by its name, with the tare and the capacity that any phase states for it. */
export const vesselsOf = (sheet: Sheet): ReadonlyMap<string, Vessel> => {
  const vessels = new Map<string, Vessel>();
  for (const { vessel } of sheet.phases) {
    vessels.set(vessel.name, { ...vessel, ...vessels.get(vessel.name) });
  }
  return vessels;
};

/** What a step finds in its phase's vessel, and what stands in the vessel that it fills afterwards. */
export interface Filling {
  readonly step: Step;
  readonly vessel: string;
  readonly before: Mass;
  readonly after: Mass;
}

const fill = (
  contents: Map<string, Mass>,
  step: Step,
  vessel: string,
  mass: Mass,
): readonly Filling[] => {
  const before = contents.get(vessel) ?? noMass;
  const after = add(before, mass);
  contents.set(vessel, after);
  return [{ step, vessel, before, after }];
};

const followStep = (
  contents: Map<string, Mass>,
  phase: Phase,
  step: Step,
  masses: ReadonlyMap<Step, Mass>,
): readonly Filling[] => {
  if (step.kind === 'tip') {
    const tipped = contents.get(step.from) ?? noMass;
    contents.set(step.from, noMass);
    return fill(contents, step, step.into, tipped);
  }
  if (step.kind === 'do' && step.empties !== undefined) contents.set(step.empties, noMass);
  const mass = masses.get(step);
  return mass === undefined ? [] : fill(contents, step, phase.vessel.name, mass);
};

/** Follows the contents of all vessels through the sheet's order, adjust steps at their most. */
export const followVessels = (
  sheet: Sheet,
  masses: ReadonlyMap<Step, Mass>,
): readonly Filling[] => {
  const contents = new Map<string, Mass>();
  return sheet.phases.flatMap(phase =>
    phase.steps.flatMap(step => followStep(contents, phase, step, masses)),
  );
};

/** The vessels that would have more in them than they hold, each once, at the step that overfills it. */
export const checkVessels = (
  vessels: ReadonlyMap<string, Vessel>,
  fillings: readonly Filling[],
): readonly Problem[] =>
  [...vessels.values()].flatMap(({ name, holds }) => {
    if (holds === undefined) return [];
    const over = fillings.filter(each => each.vessel === name && isMore(each.after, holds));
    const [first] = over;
    if (first === undefined) return [];
    const most = over.reduce((mass, each) => larger(mass, each.after), holds);
    return [
      problem(
        'vessel-overflows',
        first.step.place,
        `${quote(name)} would have ${showGrams(most, 1)} in it and holds ${showGrams(holds, 1)}.`,
        'Make a smaller batch, or name a larger vessel.',
      ),
    ];
  });
