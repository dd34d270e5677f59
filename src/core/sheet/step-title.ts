import type { Step } from './sheet.ts';

/** What a step is about, in a few words; materials by their key. */
export const titleOfStep = (step: Step): string => {
  switch (step.kind) {
    case 'add':
      return step.material;
    case 'wear':
      return `Wear ${step.items.join(', ')}`;
    case 'ready':
      return `Ready: ${step.items.join(', ')}`;
    case 'do':
      return step.text;
    case 'measure':
      return `Measure ${step.what}`;
    case 'adjust':
      return `Adjust ${step.name ?? step.material}`;
    case 'hold':
      return step.why;
    case 'tip':
      return `Tip ${step.from} into ${step.into}`;
    case 'tally':
      return 'Count and weigh what came out';
  }
};
