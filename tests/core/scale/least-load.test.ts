import { describe, expect, it } from 'vitest';
import type { Scale } from '../../../src/core/plan/plan.ts';
import { toExact } from '../../../src/core/quantity/decimal.ts';
import { leastLoad } from '../../../src/core/scale/least-load.ts';
import { factsOf } from '../../helpers/scale-facts.ts';

const least = (facts: Scale): string => {
  const found = leastLoad(facts);
  return found === undefined ? 'none' : `${toExact(found.mass)} by ${found.by}`;
};

describe('the least load of a scale', () => {
  it('is its own figure before any rule', () => {
    expect(least(factsOf('2000', '0.1', { leastLoad: '3', accuracyClass: 'II', s: '0.06' }))).toBe(
      '3 by own figure',
    );
  });

  it('goes by class and e before repeatability', () => {
    expect(least(factsOf('2000', '0.1', { accuracyClass: 'II', s: '0.06' }))).toBe('5 by class');
    expect(least(factsOf('2000', '0.01', { accuracyClass: 'II', e: '0.1' }))).toBe('5 by class');
    expect(least(factsOf('2000', '0.01', { accuracyClass: 'II' }))).toBe('0.2 by class');
  });

  it('goes by repeatability where class has no such e, or none is known', () => {
    expect(least(factsOf('2000', '0.1', { s: '0.06' }))).toBe('120 by repeatability');
    expect(least(factsOf('2000', '0.1', { s: '0' }))).toBe('82 by repeatability');
    expect(least(factsOf('2000', '1', { accuracyClass: 'IIII', s: '0.6' }))).toBe(
      '1200 by repeatability',
    );
  });

  it('is unknown where nothing is', () => {
    expect(least(factsOf('2000', '0.1'))).toBe('none');
  });
});
