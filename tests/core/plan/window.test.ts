import { describe, expect, it } from 'vitest';
import { divisionsIn, onScale, verdictOf, windowOf } from '../../../src/core/plan/window.ts';
import { toExact } from '../../../src/core/quantity/decimal.ts';
import { mass, number, tolerance } from '../../helpers/sheet.ts';

const edges = (exact: string, ...allowed: Parameters<typeof tolerance>) => {
  const { low, high } = windowOf(tolerance(...allowed), mass(exact));
  return `${toExact(low)} ${toExact(high)}`;
};

describe('windowOf', () => {
  it.each([
    ['a share, both ways', '300', ['1%'], '297 303'],
    ['a mass, both ways', '300', ['0.5g'], '299.5 300.5'],
    ['a share under and another over', '200', ['2%', '1%'], '196 202'],
    ['mixed kinds', '200', ['2%', '0.5g'], '196 200.5'],
    ['one side', '300', ['0g', '2g'], '300 302'],
    ['a floor that is wider than the share', '2', ['1%', '1%', '0.05'], '1.95 2.05'],
    ['a floor that is narrower', '300', ['1%', '1%', '0.05'], '297 303'],
    ['a floor and a side of zero, which stays zero', '2', ['0%', '1%', '0.05'], '2 2.05'],
    ['a target that is no decimal', '1/3', ['1%'], '0.33 101/300'],
  ] as const)('takes %s', (_, exact, allowed, expected) => {
    const [under, over, floor] = allowed as readonly [string, string?, string?];
    expect(edges(exact, under, over, floor)).toBe(expected);
  });
});

const scale = (d: string) => ({
  name: 'invented',
  capacity: mass('10000'),
  readability: mass(d),
  unit: 'g',
});
const read = (exact: string, low: string, high: string, d: string) => {
  const on = onScale(mass(exact), { low: mass(low), high: mass(high) }, scale(d));
  return [on.low, on.target, on.high].map(each => each && toExact(each)).join(' ');
};

describe('onScale', () => {
  it.each([
    ['100', '99', '101', '0.1', '99 100 101'],
    ['100.05', '99.01', '101.09', '0.1', '99.1 100 101'],
    ['100.15', '99', '101', '0.1', '99 100.2 101'],
    ['100.05', '100.05', '101', '0.1', '100.1 100.1 101'],
    ['100.04', '100.04', '101', '0.1', '100.1 100.1 101'],
    ['100.06', '99', '100.06', '0.1', '99 100 100'],
    ['7', '5', '9', '2', '6 8 8'],
    ['7', '6', '7', '2', '6 6 6'],
    ['100.05', '100.01', '100.09', '0.1', '  '],
    ['100', '100', '100', '0.1', '100 100 100'],
  ])('puts %s of %s to %s on steps of %s: %s', (exact, low, high, d, expected) => {
    expect(read(exact, low, high, d)).toBe(expected);
  });

  it('measures the window in divisions', () => {
    const window = { low: mass('99'), high: mass('101') };
    expect(divisionsIn(window, mass('0.5'))).toEqual(number('4'));
    expect(divisionsIn(window, mass('0.3'))).toEqual(number('20/3'));
  });
});

describe('verdictOf', () => {
  const window = { low: mass('1/3'), high: mass('101') };

  it.each([
    ['1/3', 'in'],
    ['101', 'in'],
    ['0.3333333333', 'under'],
    ['101.0000000001', 'over'],
    ['50', 'in'],
    ['-1', 'under'],
  ])('calls %s g %s', (net, verdict) => {
    expect(verdictOf(mass(net), window)).toBe(verdict);
  });
});
