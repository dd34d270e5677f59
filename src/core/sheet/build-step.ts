import { defined, present } from './present.ts';
import type { DraftStep } from './read-step.ts';
import type { Amounts } from './resolve-amounts.ts';
import type { AddStep, AdjustStep, Step, StepBase } from './sheet.ts';

type Of<Kind extends Step['kind']> = Extract<DraftStep, { readonly kind: Kind }>;

const base = (draft: DraftStep): StepBase => ({
  ...defined({ name: draft.name?.value, within: draft.within?.value }),
  witness: draft.witness === 'yes',
  place: draft.place,
});

const buildAdd = (draft: Of<'add'>, { ofAdd }: Amounts): AddStep => ({
  ...base(draft),
  kind: 'add',
  material: present(draft.add).value,
  amount: present(ofAdd.get(draft)),
  ...defined({ tolerance: draft.tolerance }),
});

const buildAdjust = (draft: Of<'adjust'>, { by, most }: Amounts): AdjustStep => ({
  ...base(draft),
  kind: 'adjust',
  material: present(draft.adjust).value,
  ...defined({ by: by.get(draft) }),
  most: present(most.get(draft)),
  until: present(draft.until),
});

/** A step from a draft without problems, its amounts weighed. */
export const buildStep = (draft: DraftStep, amounts: Amounts): Step => {
  switch (draft.kind) {
    case 'add':
      return buildAdd(draft, amounts);
    case 'adjust':
      return buildAdjust(draft, amounts);
    case 'wear':
      return { ...base(draft), kind: 'wear', items: present(draft.wear).map(present) };
    case 'ready':
      return { ...base(draft), kind: 'ready', items: present(draft.ready).map(present) };
    case 'do': {
      const empties = draft.empties?.value;
      return { ...base(draft), kind: 'do', text: present(draft.do), ...defined({ empties }) };
    }
    case 'measure': {
      const { least, most } = draft;
      const what = { what: present(draft.measure), unit: present(draft.unit) };
      return { ...base(draft), kind: 'measure', ...what, ...defined({ least, most }) };
    }
    case 'hold':
      return { ...base(draft), kind: 'hold', ...present(draft.hold), why: present(draft.for) };
    case 'tip':
      return {
        ...base(draft),
        kind: 'tip',
        from: present(draft.tip).value,
        into: present(draft.into).value,
      };
    case 'tally':
      return { ...base(draft), kind: 'tally', weigh: present(draft.tally).weigh ?? 0 };
  }
};
