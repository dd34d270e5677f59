import { isMore, type Ratio } from '../quantity/quantity.ts';
import { quote } from './quote.ts';
import { faultAt, type Report } from './reader.ts';
import type { Place } from './sheet.ts';
import type { DraftSheet } from './sheet-reader.ts';
import { allSteps, finishOf, isWhole, limitsOf, phasesOf } from './walk.ts';

interface Bounds {
  readonly least: Ratio | undefined;
  readonly most: Ratio | undefined;
  readonly place: Place;
}

const checkOrder = ({ least, most, place }: Bounds, report: Report): void => {
  if (least === undefined || most === undefined || !isMore(least, most)) return;
  const mend = 'Exchange the two numbers.';
  faultAt(place, report)('hold-backwards', 'The most is under the least.', mend);
};

const needsVessel = new Set(['add', 'adjust', 'tip']);

const checkFinish = (draft: DraftSheet, report: Report): void => {
  for (const step of finishOf(draft)) {
    if (!needsVessel.has(step.kind)) continue;
    const message = `${quote(step.kind)} needs a vessel, and the finish has none.`;
    faultAt(step.place, report)('no-step-kind', message, 'Move this step into a phase.');
  }
};

const checkTolerances = (draft: DraftSheet, report: Report): void => {
  if (draft.has.has('tolerance')) return;
  const [first, ...more] = allSteps(draft)
    .map(({ step }) => step)
    .filter(step => step.kind === 'add' && !step.has.has('tolerance'));
  if (first === undefined) return;
  const others = more.length === 0 ? '' : ` The same is true of ${more.length} more below.`;
  faultAt(first.place, report)(
    'no-tolerance',
    `Nothing says how exactly this is weighed.${others}`,
    'Add tolerance: 1 % to this step, or once at the top of the sheet.',
  );
};

const checkAdditions = (draft: DraftSheet, report: Report): void => {
  if (!isWhole(draft) || allSteps(draft).some(({ step }) => step.kind === 'add')) return;
  const mend = 'Add a step to a phase, such as {add: bicarbonate, amount: 62 %}';
  const place = phasesOf(draft)[0]?.place ?? draft.place;
  faultAt(place, report)('no-additions', 'Nothing is weighed in this sheet.', mend);
};

/** What steps and limits have to say for themselves, amounts aside. */
export const checkSteps = (draft: DraftSheet, report: Report): void => {
  for (const { step } of allSteps(draft)) if (step.kind === 'measure') checkOrder(step, report);
  for (const limit of limitsOf(draft)) {
    checkOrder(limit, report);
    if (limit.has.has('least') || limit.has.has('most')) continue;
    const mend = limit.kind === 'share' ? 'Add most: 3 %' : 'Add most: 2.2';
    faultAt(limit.place, report)('missing-key', 'This limit bounds nothing.', mend);
  }
  checkFinish(draft, report);
  checkTolerances(draft, report);
  checkAdditions(draft, report);
};
