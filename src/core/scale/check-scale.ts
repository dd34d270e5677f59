/** The workshop's own check of a scale with test masses; no legal verification. */

import type { CheckVerdict, Scale } from '../plan/plan.ts';
import {
  absolute,
  add,
  dividedBy,
  isMore,
  type Mass,
  noMass,
  ratio,
  subtract,
  sum,
  times,
} from '../quantity/quantity.ts';
import { showGrams, showMass } from '../quantity/show.ts';
import { inServiceLimit, intervalOf } from './accuracy-class.ts';
import { type TestMassClass, testMassLimit } from './test-mass.ts';

export interface TestMass {
  readonly nominal: Mass;
  readonly massClass: TestMassClass;
}

/** What was put on the scale, and what it showed. */
export interface TestLoad {
  readonly masses: readonly TestMass[];
  readonly shown: Mass;
}

export interface LoadChecked {
  readonly nominal: Mass;
  /** Shown less nominal. */
  readonly error: Mass;
  /** Allowed either way in service: R 76-1 Table 6, twice. */
  readonly limit: Mass;
  /** What the test masses themselves may be off (R 111-1), added up. */
  readonly tolerance: Mass;
  readonly verdict: CheckVerdict;
  readonly notes: readonly string[];
}

export type ScaleChecked =
  | {
      readonly ok: true;
      /** The worst of all loads. */
      readonly verdict: CheckVerdict;
      readonly loads: readonly LoadChecked[];
    }
  | { readonly ok: false; readonly message: string; readonly instead: string };

const refuse = (message: string, instead: string): ScaleChecked & { readonly ok: false } => ({
  ok: false,
  message,
  instead,
});

const verdictOf = (error: Mass, limit: Mass, tolerance: Mass): CheckVerdict => {
  if (!isMore(add(error, tolerance), limit)) return 'within';
  return isMore(subtract(error, tolerance), limit) ? 'beyond' : 'doubtful';
};

type Checked = Omit<LoadChecked, 'notes'>;

const verdictNotes: Readonly<Record<CheckVerdict, readonly string[]>> = {
  within: [],
  doubtful: [
    'Whether that is within the limit depends on how right the test masses are: check again with finer ones, or have the scale adjusted.',
  ],
  beyond: [
    'That is more than the limit: have the scale adjusted before anything is weighed on it.',
  ],
};

const coarseMasses = ({ limit, tolerance }: Checked): readonly string[] =>
  // A standard may be off by a third of what it checks (R 76-1 3.7.1).
  isMore(times(tolerance, ratio(3n)), limit)
    ? [
        `The test masses may be off by ${showGrams(tolerance, 4)}, more than a third of the limit: finer ones would tell more.`,
      ]
    : [];

const coarseDisplay = (checked: Checked, scale: Scale): readonly string[] => {
  const { error, limit, tolerance, verdict } = checked;
  const hidden = dividedBy(scale.readability, ratio(2n));
  return verdict === 'within' && isMore(sum(absolute(error), [tolerance, hidden]), limit)
    ? [
        `The display rounds to ${showMass(scale.readability, scale)}: what is lost in it could reach the limit.`,
      ]
    : [];
};

const checkLoad = (
  { masses, shown }: TestLoad,
  scale: Scale & Required<Pick<Scale, 'accuracyClass'>>,
): LoadChecked | (ScaleChecked & { readonly ok: false }) => {
  const nominal = sum(
    noMass,
    masses.map(each => each.nominal),
  );
  const tolerances = masses.flatMap(each => testMassLimit(each.massClass, each.nominal) ?? []);
  if (tolerances.length === 0 || tolerances.length < masses.length) {
    return refuse(
      'No limit is known for a test mass of that size.',
      'Use test masses of 1, 2 or 5 times 1 g, 10 g, 100 g or 1 kg, up to 5 kg.',
    );
  }
  if (isMore(nominal, scale.capacity)) {
    return refuse('That is more than this scale can carry.', 'Check it with a smaller load.');
  }
  const error = subtract(shown, nominal);
  const limit = inServiceLimit(scale.accuracyClass, intervalOf(scale), nominal);
  const tolerance = sum(noMass, tolerances);
  const verdict = verdictOf(absolute(error), limit, tolerance);
  const checked = { nominal, error, limit, tolerance, verdict };
  const notes = [
    ...verdictNotes[verdict],
    ...coarseMasses(checked),
    ...coarseDisplay(checked, scale),
  ];
  return { ...checked, notes };
};

const worstFirst: readonly CheckVerdict[] = ['beyond', 'doubtful', 'within'];

/**
 * Judges readings of test masses by the limits of R 76-1 for a scale in service. The reading as shown
 * is judged: what its rounding hides is said in a note. Refused without a class, without a load, over
 * the capacity, and for a mass that R 111-1 Table 1 does not list.
 */
export const checkScale = (scale: Scale, loads: readonly TestLoad[]): ScaleChecked => {
  const { accuracyClass } = scale;
  if (accuracyClass === undefined) {
    return refuse(
      'No class is known for this scale, so there are no limits to check it by.',
      'Enter its class and e: they stand on its plate.',
    );
  }
  const checked: LoadChecked[] = [];
  for (const load of loads) {
    const one = checkLoad(load, { ...scale, accuracyClass });
    if ('ok' in one) return one;
    checked.push(one);
  }
  const verdict = worstFirst.find(each => checked.some(load => load.verdict === each));
  return verdict === undefined
    ? refuse(
        'No test mass was put on.',
        'Check with one near what you weigh, and one near the capacity.',
      )
    : { ok: true, verdict, loads: checked };
};
