import type { Volume } from '../quantity/quantity.ts';
import type { DraftAmount, DraftSum } from './read-amount.ts';
import type { DraftAdd, DraftAdjust } from './read-step.ts';
import { faultAt, type Placed, type Report } from './reader.ts';
import type { Amount, Measured } from './sheet.ts';
import type { DraftSheet } from './sheet-reader.ts';
import { allSteps } from './walk.ts';
import { weigh } from './weigh.ts';

/** What the amounts of a sheet come to; one that cannot be known is not in it. */
export interface Amounts {
  readonly ofAdd: ReadonlyMap<DraftAdd, Amount>;
  readonly most: ReadonlyMap<DraftAdjust, Measured>;
  readonly by: ReadonlyMap<DraftAdjust, Measured>;
}

type Resolve = (
  key: string | undefined,
  amount: Placed<DraftSum> | undefined,
) => Measured | undefined;

const resolver = (draft: DraftSheet, report: Report): Resolve => {
  const measures = measuresOf(draft);
  return (key = '', amount) => {
    const material = draft.materials?.get(key)?.value;
    if (material === undefined || amount === undefined) return undefined;
    const { value, place } = amount;
    const mass = weigh({ key, material, measures }, value, faultAt(place, report));
    return mass === undefined ? undefined : { typed: value.typed, mass };
  };
};

/** The sheet's own measures, as far as they could be read. */
export const measuresOf = (draft: DraftSheet): ReadonlyMap<string, Volume> =>
  new Map(
    [...(draft.measures ?? [])].flatMap(([name, { value }]) =>
      value === undefined ? [] : [[name, value] as const],
    ),
  );

const ofAddition = (
  key: string | undefined,
  amount: Placed<DraftAmount> | undefined,
  resolve: Resolve,
): Amount | undefined => {
  if (amount?.value.kind !== 'sum') return amount?.value;
  const measured = resolve(key, { value: amount.value, place: amount.place });
  return measured && { kind: 'mass', ...measured };
};

const entries = <K, V>(pairs: readonly (readonly [K, V | undefined])[]): ReadonlyMap<K, V> =>
  new Map(pairs.flatMap(([key, value]) => (value === undefined ? [] : [[key, value] as const])));

/** Weighs every absolute amount through its material; a material that does not say what it weighs is reported. */
export const resolveAmounts = (draft: DraftSheet, report: Report): Amounts => {
  const resolve = resolver(draft, report);
  const steps = allSteps(draft).map(({ step }) => step);
  const adds = steps.filter(step => step.kind === 'add');
  const adjusts = steps.filter(step => step.kind === 'adjust');
  return {
    ofAdd: entries(adds.map(step => [step, ofAddition(step.add?.value, step.amount, resolve)])),
    most: entries(adjusts.map(step => [step, resolve(step.adjust?.value, step.most)])),
    by: entries(adjusts.map(step => [step, resolve(step.adjust?.value, step.by)])),
  };
};
