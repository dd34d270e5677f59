import { describe, expect, it } from 'vitest';
import type { SizeWish } from '../../../src/core/plan/plan.ts';
import { toExact } from '../../../src/core/quantity/decimal.ts';
import { type Mass, noMass, sum } from '../../../src/core/quantity/quantity.ts';
import { asWritten, codes, plan } from '../../helpers/plan.ts';
import {
  adding,
  cedarDomes,
  mass,
  number,
  percent,
  phaseOf,
  sheetOf,
} from '../../helpers/sheet.ts';

const text = (value: Mass | undefined) => (value === undefined ? '' : toExact(value));

const most = (wish: SizeWish) =>
  text(plan(cedarDomes(), wish).plan.steps.find(each => each.step.kind === 'adjust')?.most);

describe('the example of sheet.md', () => {
  const { plan: planned, problems } = plan(cedarDomes(), asWritten, []);

  // 36 · 95 g / 0.98 = 171000/49 g; the shares and windows of each line are worked out by hand from it.
  it('weighs in 171000/49 g for 36 domes', () => {
    expect(toExact(planned.size.batchMass)).toBe('171000/49');
    expect(planned.size.pieces).toBe(36);
    expect(toExact(planned.size.remainder)).toBe('0');
    expect(planned.phases.map(each => toExact(each.mass))).toEqual(['145350/49', '25650/49']);
  });

  it.each([
    [1, 'bicarbonate', '90117/49', 'big', '1820.8', '1839.1', '1857.5', 'vessel'],
    [2, 'citric acid', '90117/98', 'big', '910.4', '919.6', '928.7', 'vessel'],
    [3, 'cedar blend', '17442/245', 'fine', '69.77', '71.19', '71.9', 'cup'],
    [4, 'cornflour', '66861/490', 'fine', '135.09', '136.45', '137.81', 'cup'],
    [5, 'cocoa butter', '2565/7', 'big', '362.8', '366.4', '370', 'vessel'],
    [6, 'stearic acid', '7695/49', 'fine', '155.48', '157.04', '158.61', 'cup'],
  ])('plans addition %i, %s', (n, material, exact, on, low, target, high, place) => {
    const addition = planned.additions[n - 1];
    expect(addition).toMatchObject({ n, material, place, weighings: 1 });
    expect(addition?.onScale?.scale.name).toBe(on);
    expect(text(addition?.exact)).toBe(exact);
    expect(text(addition?.onScale?.low)).toBe(low);
    expect(text(addition?.onScale?.target)).toBe(target);
    expect(text(addition?.onScale?.high)).toBe(high);
  });

  it('numbers the steps through both phases and the finish', () => {
    expect(planned.steps.map(each => each.n)).toEqual(planned.steps.map((_, at) => at + 1));
    expect(planned.steps.map(each => each.step.kind).join(' ')).toBe(
      'wear ready add add add add do measure adjust do hold add add hold tally',
    );
    expect(planned.phases.map(each => each.steps)).toEqual([
      [1, 2, 3, 4, 5, 6, 7, 8, 9, 10, 11],
      [12, 13],
    ]);
    expect(planned.steps.at(-1)?.phase).toBeUndefined();
    expect(planned.additions.map(each => each.step)).toEqual([3, 4, 5, 6, 12, 13]);
  });

  it('assumes two scales and says so', () => {
    expect(codes(problems)).toEqual(['scales-assumed']);
    expect(problems[0]?.severity).toBe('information');
    expect(planned.scales.map(each => each.name)).toEqual(['big', 'fine']);
  });

  it('follows the size with what adjust may take at most', () => {
    expect(most(asWritten)).toBe('11.976');
    expect(most({ by: 'factor', factor: number('3/2') })).toBe('17.964');
  });
});

describe('what cannot be walked yet', () => {
  it('is named with its phase', () => {
    const sheet = sheetOf(
      [
        phaseOf('Base', [adding('a', '600g')], { portions: 3 }),
        phaseOf('Top', [adding('b', '400g')], { rework: { of: 'INV', most: percent('5') } }),
      ],
      { basis: 'absolute' },
    );
    const { problems } = plan(sheet);
    expect(codes(problems)).toEqual(['not-walked-yet', 'not-walked-yet']);
    expect(problems.map(each => each.line)).toEqual(sheet.phases.map(each => each.place.line));
    expect(problems[0]?.message).toContain('3 portions');
  });
});

describe('a plan', () => {
  it('has its problems in the order of the sheet', () => {
    const steps = [adding('a', '20000g'), adding('b', '30000g')];
    const vessel = { name: 'bowl', holds: mass('1000') };
    const { problems } = plan(sheetOf([phaseOf('Bowl', steps, { vessel })], { basis: 'absolute' }));
    expect(problems.map(each => `${each.line - (steps[0]?.place.line ?? 0)} ${each.code}`)).toEqual(
      ['0 several-weighings', '0 vessel-overflows', '1 several-weighings'],
    );
  });

  it('gives masses that add up to the batch, exactly', () => {
    const { plan: planned } = plan(cedarDomes(), { by: 'mass', mass: mass('10000/7') });
    expect(
      sum(
        noMass,
        planned.additions.map(each => each.exact),
      ),
    ).toEqual(mass('10000/7'));
  });
});
