import type { Step } from '../../core/sheet/sheet.ts';
import { titleOfStep } from '../../core/sheet/step-title.ts';
import { nameOf, type RecordView } from './show-record.ts';

const titleOf = (view: RecordView, step: Step): string => {
  switch (step.kind) {
    case 'add':
      return `Add ${nameOf(view, step.material)}`;
    case 'adjust':
      return `Adjust with ${nameOf(view, step.material)} until ${step.until}`;
    default:
      return titleOfStep(step);
  }
};

/** All steps of the sheet in their order, each with its phase; step n stands at n − 1. */
export const stepsOf = ({
  sheet,
}: RecordView): readonly { readonly phase: string; readonly step: Step }[] => [
  ...sheet.phases.flatMap(phase => phase.steps.map(step => ({ phase: phase.name, step }))),
  ...sheet.finish.map(step => ({ phase: 'Finish', step })),
];

/** `7. Add Cornflour`. */
export const stepTitle = (view: RecordView, n: number): string => {
  if (n === 0) return 'Before the first step';
  const found = stepsOf(view)[n - 1];
  return found === undefined ? `Step ${n}` : `${n}. ${titleOf(view, found.step)}`;
};
