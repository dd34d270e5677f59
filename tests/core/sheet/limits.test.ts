import { describe, expect, it } from 'vitest';
import { toExact } from '../../../src/core/quantity/decimal.ts';
import { evaluateLimits } from '../../../src/core/sheet/limits.ts';
import type { Limit } from '../../../src/core/sheet/sheet.ts';
import { mass, number } from '../../helpers/sheet.ts';

const place = { line: 1, column: 1 };
const portions = [
  { phase: 'Base', material: 'soda', mass: mass('60') },
  { phase: 'Base', material: 'acid', mass: mass('30') },
  { phase: 'Top', material: 'acid', mass: mass('1') },
  { phase: 'Top', material: 'oil', mass: mass('9') },
];

const evaluate = (limit: object, over = portions) => {
  const [finding] = evaluateLimits([{ place, ...limit } as Limit], over);
  if (finding === undefined) throw new Error('one limit, one finding');
  const actual = finding.actual === undefined ? 'none' : toExact(finding.actual);
  return `${actual} ${finding.holds ? 'holds' : 'broken'}`;
};

describe('evaluateLimits', () => {
  it.each([
    [{ kind: 'share', material: 'acid', most: number('0.31') }, '0.31 holds'],
    [{ kind: 'share', material: 'acid', most: number('0.3099') }, '0.31 broken'],
    [{ kind: 'share', material: 'acid', least: number('0.31') }, '0.31 holds'],
    [{ kind: 'share', material: 'acid', least: number('0.3101') }, '0.31 broken'],
    [{ kind: 'share', material: 'acid', phase: 'Base', most: number('1/3') }, '1/3 holds'],
    [{ kind: 'share', material: 'acid', phase: 'Base', most: number('0.333') }, '1/3 broken'],
    [{ kind: 'share', material: 'salt', least: number('0.01') }, '0 broken'],
    [{ kind: 'ratio', material: 'soda', to: 'acid', least: number('60/31') }, '60/31 holds'],
    [{ kind: 'ratio', material: 'soda', to: 'acid', most: number('1.9') }, '60/31 broken'],
  ])('judges %o', (limit, expected) => {
    expect(evaluate(limit)).toBe(expected);
  });

  it('lets a limit hold while nothing is there to divide by', () => {
    const share = { kind: 'share', material: 'acid', phase: 'Nowhere', least: number('0.5') };
    expect(evaluate(share)).toBe('none holds');
    expect(evaluate({ kind: 'ratio', material: 'salt', to: 'sand', most: number('2') })).toBe(
      'none holds',
    );
  });

  it('breaks the most of a ratio whose second material is missing', () => {
    const ratio = { kind: 'ratio', material: 'soda', to: 'sand' };
    expect(evaluate({ ...ratio, most: number('2') })).toBe('none broken');
    expect(evaluate({ ...ratio, least: number('2') })).toBe('none holds');
  });

  it('answers for each limit in the order of the sheet', () => {
    const limits: readonly Limit[] = [
      { kind: 'share', material: 'oil', most: number('1'), place },
      { kind: 'share', material: 'acid', most: number('1'), place },
    ];
    expect(evaluateLimits(limits, portions).map(each => each.limit)).toEqual(limits);
  });
});
