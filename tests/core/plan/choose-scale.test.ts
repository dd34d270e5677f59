import { describe, expect, it } from 'vitest';
import type { Scale } from '../../../src/core/plan/plan.ts';
import { toExact } from '../../../src/core/quantity/decimal.ts';
import type { Sheet } from '../../../src/core/sheet/sheet.ts';
import { asWritten, big, codes, fine, oneBowl, plan, scaleOf } from '../../helpers/plan.ts';
import { factsOf } from '../../helpers/scale-facts.ts';
import { mass, tolerance } from '../../helpers/sheet.ts';

const chosen = (amount: string, scales: readonly Scale[], more: Partial<Sheet> = {}) => {
  const { plan: planned, problems } = plan(oneBowl([amount], more), asWritten, scales);
  const [addition] = planned.additions;
  return [addition?.onScale?.scale.name, addition?.weighings, ...codes(problems)].join(' ');
};

const found = (side: string) =>
  codes(plan(oneBowl(['5'], { tolerance: tolerance(side, '1g') }), asWritten, [fine]).problems);

const about = (accuracyClass?: 'II') =>
  codes(
    plan(oneBowl(['100']), asWritten, [
      factsOf('5000', '0.1', { name: 'one', ...(accuracyClass && { accuracyClass, e: '1' }) }),
    ]).problems,
  );

describe('what a window cannot claim', () => {
  it('is told where the class of the scale is known, and nothing where it is not', () => {
    // 1 % of 100 g is ±1 g; in service class II of e 1 g may be off by 1 g: U is 1.16 g.
    expect(about('II')).toEqual(['window-unclaimable']);
    expect(about()).toEqual([]);
  });
});

describe('the scale of an addition', () => {
  it('is the finest that carries the greatest accepted mass', () => {
    expect(chosen('198', [big, fine])).toBe('fine 1');
    expect(chosen('198.02', [big, fine])).toBe('fine 1');
    expect(chosen('198.03', [big, fine])).toBe('big 1');
  });

  it('is the largest, several times, where none carries it', () => {
    expect(chosen('9900.99', [big, fine])).toBe('big 1');
    expect(chosen('9902', [big, fine])).toBe('big 2 several-weighings');
    expect(chosen('25000', [big, fine])).toBe('big 3 several-weighings');
  });

  it.each([
    ['0.2g', 'coarse 1'],
    ['0.19g', 'coarse 1 window-narrow'],
    ['0.1g', 'coarse 1 window-narrow'],
    ['0.09g', 'coarse 1 window-too-narrow'],
    ['0g', 'coarse 1 window-too-narrow'],
  ])('holds ±%s in so many divisions of 0.1 g: %s', (side, expected) => {
    const coarse = [scaleOf('coarse', '1000', '0.1')];
    expect(chosen('50', coarse, { tolerance: tolerance(side) })).toBe(expected);
  });

  it('is none where no reading lies inside the window', () => {
    const sheet = oneBowl(['50.05'], { tolerance: tolerance('0.02g') });
    const { plan: planned, problems } = plan(sheet, asWritten, [big]);
    expect(planned.additions[0]).toMatchObject({ weighings: 1, place: 'cup' });
    expect(planned.additions[0]?.onScale).toBeUndefined();
    expect(codes(problems)).toEqual(['no-scale']);
    expect(problems[0]?.mend).toBe(
      'Widen the tolerance, or use a scale that carries 50.07 g and shows steps of 0.01 g or finer.',
    );
  });

  it('is found by the mend of a window without any reading', () => {
    const sheet = oneBowl(['50.05'], { tolerance: tolerance('0.02g') });
    expect(plan(sheet, asWritten, [scaleOf('mended', '200', '0.01')]).problems).toEqual([]);
  });

  it('is fit for the load, where one is in use that is', () => {
    // Class II of e 0.1 g: 50 e are 5 g. The coarser scale has no least load.
    const light = factsOf('2000', '0.01', { accuracyClass: 'II', e: '0.1', name: 'light' });
    const plain = scaleOf('plain', '1000', '0.02');
    const wide = { tolerance: tolerance('10%') };
    expect(chosen('5', [light, plain], wide)).toBe('light 1');
    expect(chosen('4', [light, plain], wide)).toBe('plain 1');
    expect(chosen('4', [light], wide)).toBe('light 1 under-least-load');
  });

  it('rather shows two divisions than is under its least load, and rather that than several weighings', () => {
    const light = factsOf('2000', '0.01', { leastLoad: '60', name: 'light' });
    const narrow = scaleOf('narrow', '1000', '0.4');
    expect(chosen('50', [light, narrow])).toBe('narrow 1 window-narrow');
    expect(chosen('50', [light, scaleOf('small', '20', '0.01')])).toBe('light 1 under-least-load');
  });

  it('is a smaller one, several times, where the larger one is too coarse', () => {
    const coarse = scaleOf('coarse', '5000', '5');
    expect(chosen('500', [coarse, fine])).toBe('coarse 1 window-narrow');
    expect(chosen('450', [coarse, fine])).toBe('fine 3 several-weighings');
  });

  it('carries a line in twenty weighings at most', () => {
    expect(chosen('3960', [fine])).toBe('fine 20 several-weighings');
    expect(chosen('3961', [fine])).toBe(' 1 no-scale');
  });

  it('has a window for each of several weighings, which together are the whole one', () => {
    const { parts } = plan(oneBowl(['25000']), asWritten, [big]).plan.additions[0] ?? {};
    expect(parts?.map(each => toExact(each.target))).toEqual(['8333.4', '8333.3', '8333.3']);
    // 1 % of 25 kg, a third of it each: 83 1/3 g.
    expect(parts?.[1]?.window).toEqual({ low: mass('247499/30'), high: mass('252499/30') });
  });

  it('is found by the mend of a load that is too light', () => {
    const light = factsOf('200', '0.01', { leastLoad: '20', name: 'light' });
    const [found] = plan(oneBowl(['7']), asWritten, [light]).problems;
    expect(found?.message).toContain('7.00 g is less than the scale “light” is made for: 20.00 g');
    expect(found?.mend).toBe(
      'Make a larger batch, or use a scale that carries 7.08 g, shows steps of 0.02 g or finer and has a least load of 7.00 g or less.',
    );
    const mended = factsOf('7.08', '0.02', { leastLoad: '7', name: 'mended' });
    expect(plan(oneBowl(['7']), asWritten, [mended]).problems).toEqual([]);
  });

  it('cannot be found for a window without width', () => {
    const sheet = oneBowl(['50.05'], { tolerance: tolerance('0g') });
    expect(plan(sheet, asWritten, [big]).problems[0]?.mend).toBe('Widen the tolerance.');
  });

  it('does not help a window that accepts nothing at all', () => {
    expect(found('5g')).toEqual(['window-reaches-zero']);
    expect(found('4.99g')).toEqual([]);
  });
});
