import { describe, expect, it } from 'vitest';
import type { Scale } from '../../../src/core/plan/plan.ts';
import type { Sheet } from '../../../src/core/sheet/sheet.ts';
import { asWritten, big, codes, fine, oneBowl, plan, scaleOf } from '../../helpers/plan.ts';
import { tolerance } from '../../helpers/sheet.ts';

const chosen = (amount: string, scales: readonly Scale[], more: Partial<Sheet> = {}) => {
  const { plan: planned, problems } = plan(oneBowl([amount], more), asWritten, scales);
  const [addition] = planned.additions;
  return [addition?.onScale?.scale.name, addition?.weighings, ...codes(problems)].join(' ');
};

const found = (side: string) =>
  codes(plan(oneBowl(['5'], { tolerance: tolerance(side, '1g') }), asWritten, [fine]).problems);

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
      'Widen the tolerance, or use a scale that shows steps of 0.01 g or finer.',
    );
  });

  it('is found by the mend of a window without any reading', () => {
    const sheet = oneBowl(['50.05'], { tolerance: tolerance('0.02g') });
    expect(plan(sheet, asWritten, [scaleOf('mended', '200', '0.01')]).problems).toEqual([]);
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
