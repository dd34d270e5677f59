import { describe, expect, it } from 'vitest';
import type { Scale } from '../../../src/core/plan/plan.ts';
import { toExact } from '../../../src/core/quantity/decimal.ts';
import { checkScale } from '../../../src/core/scale/check-scale.ts';
import type { TestMassClass } from '../../../src/core/scale/test-mass.ts';
import { factsOf } from '../../helpers/scale-facts.ts';
import { mass } from '../../helpers/sheet.ts';

// Invented scales and readings.
const bench = factsOf('10000', '1', { accuracyClass: 'III' });
const fine = factsOf('2000', '0.01', { accuracyClass: 'II', e: '0.1' });

const load = (nominal: string, massClass: TestMassClass, shown: string) => ({
  masses: nominal.split('+').map(each => ({ nominal: mass(each), massClass })),
  shown: mass(shown),
});

const one = (scale: Scale, nominal: string, massClass: TestMassClass, shown: string) => {
  const checked = checkScale(scale, [load(nominal, massClass, shown)]);
  if (!checked.ok) return checked.message;
  const [only] = checked.loads;
  return (
    only &&
    [checked.verdict, toExact(only.error), toExact(only.limit), toExact(only.tolerance)].join(' ')
  );
};

describe('a scale checked with a test mass', () => {
  it.each<[Scale, string, TestMassClass, string, string]>([
    [bench, '500', 'M1', '500', 'within 0 1 0.025'],
    [bench, '500', 'M1', '502', 'beyond 2 1 0.025'],
    [bench, '500', 'M1', '498', 'beyond -2 1 0.025'],
    [bench, '500', 'M1', '501', 'doubtful 1 1 0.025'],
    [bench, '2000', 'M1', '2001', 'within 1 2 0.1'],
    [bench, '5000', 'M2', '5003', 'doubtful 3 3 0.8'],
    [fine, '500', 'F1', '500.09', 'within 0.09 0.1 0.0025'],
    [fine, '500', 'F1', '500.10', 'doubtful 0.1 0.1 0.0025'],
    [fine, '500', 'F1', '500.11', 'beyond 0.11 0.1 0.0025'],
    [fine, '1000+500', 'F2', '1500.17', 'within 0.17 0.2 0.024'],
  ])('is judged by its limit in service', (scale, nominal, massClass, shown, expected) => {
    expect(one(scale, nominal, massClass, shown)).toBe(expected);
  });

  it('is as good as its worst load', () => {
    const checked = checkScale(bench, [load('500', 'M1', '500'), load('5000', 'M1', '5009')]);
    expect(checked).toMatchObject({ ok: true, verdict: 'beyond' });
    expect(checkScale(bench, [load('500', 'M1', '501'), load('2000', 'M1', '2000')])).toMatchObject(
      {
        verdict: 'doubtful',
      },
    );
  });

  it.each<[string, Scale, string, TestMassClass, string, readonly string[]]>([
    ['nothing of a plain case', bench, '500', 'M1', '500', []],
    [
      'where the rounding of the display could reach the limit',
      bench,
      '5000',
      'M2',
      '5002',
      ['The display rounds to 1 g: what is lost in it could reach the limit.'],
    ],
    [
      'where the test masses are too coarse to tell much',
      fine,
      '500',
      'M2',
      '500.00',
      [
        'The test masses may be off by 0.0800 g, more than a third of the limit: finer ones would tell more.',
      ],
    ],
    [
      'what a doubtful error hangs on',
      bench,
      '500',
      'M1',
      '501',
      [
        'Whether that is within the limit depends on how right the test masses are: check again with finer ones, or have the scale adjusted.',
      ],
    ],
    [
      'what to do about one beyond the limit',
      bench,
      '500',
      'M1',
      '502',
      ['That is more than the limit: have the scale adjusted before anything is weighed on it.'],
    ],
  ])('says %s', (_, scale, nominal, massClass, shown, notes) => {
    expect(checkScale(scale, [load(nominal, massClass, shown)])).toMatchObject({
      loads: [{ notes }],
    });
  });

  it.each([
    [
      'No class is known for this scale, so there are no limits to check it by.',
      factsOf('2000', '0.1'),
      '500',
    ],
    ['No limit is known for a test mass of that size.', bench, '300'],
    ['No limit is known for a test mass of that size.', bench, '500+300'],
    ['That is more than this scale can carry.', fine, '2000+1'],
  ])('is refused: %s', (message, scale, nominal) => {
    expect(one(scale, nominal, 'M1', '500')).toBe(message);
  });

  it('is refused without a load, or with a load of nothing', () => {
    expect(checkScale(bench, [])).toMatchObject({ ok: false, message: 'No test mass was put on.' });
    expect(checkScale(bench, [{ masses: [], shown: mass('0') }])).toMatchObject({ ok: false });
  });
});
