import { compare, type Mass } from '../quantity/quantity.ts';
import { nearest } from './nearest.ts';
import { quote, quoteAll } from './quote.ts';
import type { DraftPhase } from './read-phase.ts';
import type { DraftStep } from './read-step.ts';
import { faultAt, type Placed, type Report } from './reader.ts';
import type { Place } from './sheet.ts';
import type { DraftSheet } from './sheet-reader.ts';
import { allSteps, isThere, phasesOf, type StepInPhase } from './walk.ts';

const differs = (a: Mass | undefined, b: Mass | undefined): boolean =>
  a !== undefined && b !== undefined && compare(a, b) !== 0;

const checkSame = (draft: DraftSheet, report: Report): void => {
  const vessels = new Map<string, NonNullable<DraftPhase['vessel']>>();
  for (const { vessel } of phasesOf(draft)) {
    if (vessel?.name === undefined) continue;
    const { value, place } = vessel.name;
    const earlier = vessels.get(value);
    if (differs(vessel.tare, earlier?.tare) || differs(vessel.holds, earlier?.holds)) {
      const message = `${quote(value)} weighs or holds something else in an earlier phase.`;
      const mend = `Write only name: ${value} here, or give this vessel a name of its own.`;
      faultAt(place, report)('vessel-differs', message, mend);
    }
    if (earlier === undefined) vessels.set(value, vessel);
  }
};

const namedBy = (step: DraftStep): readonly Placed<string>[] => {
  if (step.kind === 'do') return [step.empties].filter(isThere);
  return step.kind === 'tip' ? [step.tip, step.into].filter(isThere) : [];
};

const checkKnown = (draft: DraftSheet, report: Report): void => {
  const names = phasesOf(draft).flatMap(phase => phase.vessel?.name?.value ?? []);
  if (names.length < (draft.phases?.length ?? 0)) return;
  for (const { value, place } of allSteps(draft).flatMap(({ step }) => namedBy(step))) {
    if (names.includes(value)) continue;
    const near = nearest(value, names);
    const mend =
      near === undefined ? `Write one of ${quoteAll(names)}.` : `Write ${quote(near)} instead.`;
    faultAt(place, report)('undeclared-vessel', `No phase has a vessel ${quote(value)}.`, mend);
  }
};

const checkTips = (draft: DraftSheet, report: Report): void => {
  for (const { step } of allSteps(draft)) {
    if (step.kind !== 'tip' || step.into === undefined) continue;
    const { value, place } = step.into;
    if (value !== step.tip?.value) continue;
    const message = `${quote(value)} is tipped into itself.`;
    faultAt(place, report)('tipped-into-itself', message, 'Write another vessel after into.');
  }
};

interface Use {
  readonly vessel: string;
  readonly place: Place;
}

// What goes into a vessel, or is tipped out of it, needs it open.
const usesOf = ({ phase, step }: StepInPhase): readonly Use[] => {
  if (step.kind === 'tip') {
    return namedBy(step).map(({ value, place }) => ({ vessel: value, place }));
  }
  const isAddition = step.kind === 'add' || step.kind === 'adjust';
  const vessel = phase?.vessel?.name?.value;
  return isAddition && vessel !== undefined ? [{ vessel, place: step.place }] : [];
};

const emptiedBy = (step: DraftStep): string | undefined =>
  step.kind === 'do' ? step.empties?.value : step.kind === 'tip' ? step.tip?.value : undefined;

const checkOpen = (draft: DraftSheet, report: Report): void => {
  const closed = new Set<string>();
  for (const each of allSteps(draft)) {
    for (const { vessel, place } of usesOf(each)) {
      // Said once: the mend is the same for every addition that follows.
      if (!closed.delete(vessel)) continue;
      const message = `An earlier step has emptied ${quote(vessel)}.`;
      const mend = 'Move this step before that one, or use another vessel.';
      faultAt(place, report)('closed-vessel', message, mend);
    }
    const emptied = emptiedBy(each.step);
    if (emptied !== undefined) closed.add(emptied);
  }
};

/** Vessels that steps name exist, are told once, and are open when something goes into them. */
export const checkVessels = (draft: DraftSheet, report: Report): void => {
  checkSame(draft, report);
  checkKnown(draft, report);
  checkTips(draft, report);
  checkOpen(draft, report);
};
