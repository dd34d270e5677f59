import { readTerms } from '../quantity/amount.ts';
import { countUnits, massUnits, timeUnits, unitNamed, volumeUnits } from '../quantity/unit.ts';
import { mendName } from './nearest.ts';
import { quote } from './quote.ts';
import { faultAt, type Placed, type Report } from './reader.ts';
import type { DraftSheet } from './sheet-reader.ts';
import { allSteps, isThere, isWhole, phasesOf } from './walk.ts';

const checkTwice = (
  names: readonly Placed<string>[],
  what: string,
  taken: Iterable<string>,
  report: Report,
): void => {
  const seen = new Set(taken);
  for (const { value, place } of names) {
    if (seen.has(value)) {
      const message = `${quote(value)} already names something else.`;
      faultAt(place, report)('repeated-name', message, `Give this ${what} a name of its own.`);
    }
    seen.add(value);
  }
};

/** Phases and named steps have names of their own; no phase is called batch or finish, which mean the whole and its end. */
const checkRepeatedNames = (draft: DraftSheet, report: Report): void => {
  const phases = phasesOf(draft).map(phase => phase.phase);
  checkTwice(phases.filter(isThere), 'phase', ['batch', 'finish'], report);
  const steps = allSteps(draft).map(({ step }) => step.name);
  checkTwice(steps.filter(isThere), 'step', [], report);
};

const checkDeadlines = (draft: DraftSheet, report: Report): void => {
  // A step that could not be read may be the one that is meant.
  if (!isWhole(draft)) return;
  const earlier = new Set<string>();
  for (const { step } of allSteps(draft)) {
    const of = step.within?.value.of;
    if (step.within !== undefined && of !== undefined && !earlier.has(of)) {
      const otherwise = `Add name: ${of} to the earlier step that the time counts from.`;
      const message = `No earlier step has the name ${quote(of)}.`;
      faultAt(step.within.place, report)(
        'undeclared-step',
        message,
        mendName(of, earlier, otherwise),
      );
    }
    if (step.name !== undefined) earlier.add(step.name.value);
  }
};

const builtIn = new Set([
  ...massUnits.keys(),
  ...volumeUnits.keys(),
  ...timeUnits.keys(),
  ...countUnits,
  'month',
  '%',
]);

const checkMeasures = (draft: DraftSheet, report: Report): void => {
  for (const [name, { place }] of draft.measures ?? []) {
    const fault = faultAt(place, report);
    if (unitNamed(name, builtIn) !== undefined) {
      const mend = 'Choose another name, such as scoop.';
      fault('reserved-measure', `${quote(name)} is a unit already.`, mend);
    } else if (readTerms(`1 ${name}`)?.[0]?.unit !== name) {
      const mend = 'Use letters only, as in scoop.';
      fault('reserved-measure', `${quote(name)} cannot be read as a unit.`, mend);
    }
  }
};

export const checkNames = (draft: DraftSheet, report: Report): void => {
  checkRepeatedNames(draft, report);
  checkDeadlines(draft, report);
  checkMeasures(draft, report);
};
