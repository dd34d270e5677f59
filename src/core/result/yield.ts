/** Yield as 21 CFR 210.3 has it: what came out against what the mass weighed in would make without any loss. */
import { toDecimal, toExact } from '../quantity/decimal.ts';
import {
  dividedBy,
  isZero,
  type Mass,
  noMass,
  one,
  ratio,
  ratioOf,
  subtract,
  sum,
  times,
} from '../quantity/quantity.ts';
import type { TallyItem } from '../run/event.ts';
import { massFrom } from '../run/mass-text.ts';
import type { RunFacts, TallyEntry } from '../run/state.ts';
import type { YieldResult } from './record.ts';
import { meanOf, percentText, spreadText } from './statistics.ts';

const entriesOf = (run: RunFacts): readonly TallyEntry[] =>
  run.steps.flatMap(state => (state.kind === 'tally' ? state.entries : []));

const valuesOf = (entries: readonly TallyEntry[], item: TallyItem): readonly string[] =>
  entries.filter(entry => entry.item === item).map(entry => entry.value);

const countOf = (entries: readonly TallyEntry[], item: TallyItem): number =>
  valuesOf(entries, item).reduce((total, value) => total + Number(value), 0);

const massOf = (entries: readonly TallyEntry[], item: TallyItem): Mass =>
  sum(noMass, valuesOf(entries, item).map(massFrom));

const weightsOf = (
  entries: readonly TallyEntry[],
): Pick<YieldResult, 'weights' | 'mean' | 'spread'> => {
  const weights = valuesOf(entries, 'weight');
  const masses = weights.map(massFrom);
  return {
    weights,
    ...(masses.length === 0 ? {} : { mean: toDecimal(meanOf(masses), 4, 'half-even') }),
    ...(masses.length < 2 ? {} : { spread: spreadText(masses) }),
  };
};

/** The yield of what was weighed in; undefined when nothing was counted. */
export const yieldOf = (run: RunFacts, massIn: Mass): YieldResult | undefined => {
  const entries = entriesOf(run);
  if (entries.length === 0) return undefined;
  const { fill, loss } = run.sheet.makes;
  const theoretical = ratioOf<'g'>(massIn, fill);
  const samples = countOf(entries, 'samples');
  const actual = countOf(entries, 'good') + samples;
  const share = isZero(theoretical) ? ratio(0n) : dividedBy(ratio(BigInt(actual)), theoretical);
  return {
    theoretical: toDecimal(theoretical, 2, 'half-even'),
    expected: toDecimal(times(theoretical, subtract(one, loss)), 2, 'half-even'),
    actual,
    percent: percentText(share, 2),
    rejected: entries
      .filter(entry => entry.item === 'rejected' && entry.value !== '0')
      .map(entry => ({ count: Number(entry.value), reason: entry.reason ?? '' })),
    samples,
    leftOver: toExact(massOf(entries, 'left over')),
    crumbs: toExact(massOf(entries, 'crumbs')),
    ...weightsOf(entries),
  };
};
