import { describe, expect, it } from 'vitest';
import { isEqual, isMore, ratio } from '../../../src/core/quantity/quantity.ts';
import {
  isTooNarrowToClaim,
  shareVariance,
  showShareUncertainty,
  showUncertainty,
  totalVariance,
  type Weighed,
  weighedOn,
} from '../../../src/core/scale/uncertainty.ts';
import { factsOf } from '../../helpers/scale-facts.ts';
import { mass, number } from '../../helpers/sheet.ts';

// Invented scales: in service, class II of e 0.1 g may be off by 0.1 g up to 500 g.
const big = factsOf('2000', '0.1', { accuracyClass: 'II', s: '0.05', name: 'big' });
const other = { ...big, name: 'other' };
const bare = factsOf('2000', '0.1');

const on = (scale: typeof big, ...masses: readonly string[]): readonly Weighed[] =>
  masses.map(each => weighedOn(scale, mass(each)));

describe('the variance of a weighed mass', () => {
  it('has a part for readability, repeatability and the limit in service', () => {
    const [weighed] = on(big, '300');
    expect(weighed?.ofReadability).toEqual(number('1/600'));
    expect(weighed?.ofRepeatability).toEqual(number('0.0025'));
    expect(weighed?.limit).toEqual(mass('0.1'));
    // 0.01/6 + 0.0025 + 0.01/3
    expect(totalVariance(on(big, '300'))).toEqual(number('3/400'));
  });

  it('is a lower bound where class and repeatability are unknown', () => {
    const [weighed] = on(bare, '300');
    expect(weighed?.limit).toBeUndefined();
    expect(totalVariance(on(bare, '300'))).toEqual(number('1/600'));
  });
});

describe('the variance of a total', () => {
  it('adds what is independent as squares, and the limit of one scale before it is squared', () => {
    // 3 · (1/600 + 1/400) + 0.3²/3
    expect(totalVariance(on(big, '300', '200', '100'))).toEqual(number('17/400'));
  });

  it('takes the limits of different scales as independent', () => {
    const apart = totalVariance([...on(big, '300'), ...on(other, '300')]);
    expect(apart).toEqual(number('3/200'));
    expect(isMore(totalVariance(on(big, '300', '300')), apart)).toBe(true);
  });

  it('of nothing is nothing', () => {
    expect(totalVariance([])).toEqual(ratio(0n));
  });
});

describe('the variance of a share', () => {
  it('follows the law of propagation', () => {
    // q = 1/4 of 400 g: (3/4)²·v/400² + (1/4)²·v/400² with v = 1/600; no limit known.
    expect(shareVariance(on(bare, '100'), on(bare, '300'))).toEqual(
      ratio(10n, 16n * 600n * 160_000n),
    );
  });

  it('loses the limit of a scale that all was weighed on in equal parts', () => {
    const halves = shareVariance(on(big, '250'), on(big, '250'));
    // 2 · (1/2)² · (1/600 + 1/400) / 500²
    expect(halves).toEqual(ratio(1n, 2n * 240n * 250_000n));
  });

  it('is the same for a part and for the rest', () => {
    const [part, rest] = [on(big, '100', '20'), on(other, '700', '3')];
    expect(isEqual(shareVariance(part, rest), shareVariance(rest, part))).toBe(true);
  });

  it('of everything is nothing', () => {
    expect(shareVariance(on(big, '100', '20'), [])).toEqual(ratio(0n));
  });
});

describe('an expanded uncertainty', () => {
  it('is shown as twice the root', () => {
    // 2 · √0.0075 = 0.17320…
    expect(showUncertainty(number('3/400'), 3)).toBe('±0.173 g');
    expect(showShareUncertainty(number('0.000001'), 2)).toBe('±0.20 %');
  });
});

const window = (low: string, high: string) => ({ low: mass(low), high: mass(high) });

describe('a window', () => {
  it('is too narrow to claim where guard bands of U leave nothing of it', () => {
    // u = 0.1 g, U = 0.2 g: a width of 0.4 g is the edge.
    expect(isTooNarrowToClaim(window('99.8', '100.2'), number('0.01'))).toBe(true);
    expect(isTooNarrowToClaim(window('99.8', '100.201'), number('0.01'))).toBe(false);
  });
});
