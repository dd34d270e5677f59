/** Means, spreads and uncertainties against published figures. */
import { existsSync, readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { toDecimal } from '../../src/core/quantity/decimal.ts';
import {
  dividedBy,
  noMass,
  type Ratio,
  ratio,
  sum,
  times,
} from '../../src/core/quantity/quantity.ts';
import { meanOf, rootText, varianceOf } from '../../src/core/result/statistics.ts';
import { totalVariance, type Weighed } from '../../src/core/scale/uncertainty.ts';
import { mass, number } from '../helpers/sheet.ts';

const folder = new URL('../../../shared/reference/data/strd/', import.meta.url);
const isThere = existsSync(folder);
if (!isThere)
  console.info('The NIST data sets are not beside this checkout: they are not compared.');

const valuesIn = (name: string): readonly string[] => {
  const text = readFileSync(new URL(name, folder), 'utf8');
  const start = /^Data:\s*Y\s*\n-+\s*\n/m.exec(text);
  return text
    .slice(start === null ? 0 : start.index + start[0].length)
    .split(/\s+/)
    .filter(Boolean);
};

// NIST Statistical Reference Datasets, univariate: certified mean and standard deviation (n − 1).
const certified: readonly [string, number, string, string][] = [
  ['NumAcc1.dat', 3, '10000002', '1'],
  ['NumAcc2.dat', 1001, '1.2', '0.1'],
  ['NumAcc3.dat', 1001, '1000000.2', '0.1'],
  ['NumAcc4.dat', 1001, '10000000.2', '0.1'],
  ['PiDigits.values.txt', 5000, '4.5348', '2.86733906028871'],
  ['Lottery.dat', 218, '518.958715596330', '291.699727470969'],
  ['Lew.dat', 200, '-177.435', '277.332168044316'],
  ['Mavro.dat', 50, '2.001856', '0.000429123454003053'],
  ['Michelso.dat', 100, '299.8524', '0.0790105478190518'],
];

const decimals = (text: string): number => text.split('.')[1]?.length ?? 0;

describe.runIf(isThere)('the data sets of NIST', () => {
  it.each(certified)('%s gives each certified digit', (name, count, mean, spread) => {
    const masses = valuesIn(name).map(mass);
    expect(masses).toHaveLength(count);
    expect(toDecimal(meanOf(masses), decimals(mean), 'half-even')).toBe(mean);
    expect(rootText(varianceOf(masses), decimals(spread))).toBe(spread);
  });

  it.each(certified.slice(0, 4))(
    '%s has exactly that spread, not only to some digits',
    (name, _, _mean, spread) => {
      const variance = varianceOf(valuesIn(name).map(mass));
      expect(variance).toEqual(times(number(spread), number(spread)));
    },
  );
});

// NIST/SEMATECH e-Handbook 6.3.2.2, the ten values; their spread was worked out apart: 2.033852….
describe('the ten values of the e-Handbook', () => {
  const masses = '49.6 47.6 49.9 51.3 47.8 51.2 52.6 52.4 53.6 52.1'.split(' ').map(mass);

  it('have its mean', () => {
    expect(toDecimal(meanOf(masses), 2, 'half-even')).toBe('50.81');
    expect(rootText(varianceOf(masses), 5)).toBe('2.03385');
  });
});

const square = (text: string): Ratio => times(number(text), number(text));
const input = (variance: Ratio): Weighed => ({
  mass: noMass,
  scale: 'scale',
  ofReadability: variance,
  ofRepeatability: ratio(0n),
});

const together = (...parts: readonly string[]): Ratio =>
  totalVariance(parts.map(part => input(square(part))));

describe('the examples of the GUM (JCGM 100:2008), recalled from memory', () => {
  // 4.4.3, table 1: twenty temperatures; the mean of the recalled values is the published one.
  it('4.4.3: mean 100.14, s 1.49, of the mean 0.33', () => {
    const values =
      '96.90 98.18 98.25 98.61 99.03 99.49 99.56 99.74 99.89 100.07 100.33 100.42 100.68 100.95 101.11 101.20 101.57 101.84 102.36 102.72'
        .split(' ')
        .map(mass);
    expect(toDecimal(meanOf(values), 3, 'half-even')).toBe('100.145');
    expect(rootText(varianceOf(values), 2)).toBe('1.49');
    expect(rootText(dividedBy(varianceOf(values), ratio(20n)), 2)).toBe('0.33');
  });

  // F.2.2.1: a display that rounds to δx has u = 0.29 δx.
  it('F.2.2.1: rounding to one division is 0.29 of it', () => {
    const [once, twice] = [1n, 2n].map(times => rootText(ratio(times, 12n), 2));
    expect(once).toBe('0.29');
    expect(twice).toBe('0.41');
  });

  // 4.3.7: bounds of ±0.40 (in 10⁻⁶ per °C) without more knowledge give u = 0.23, u² = 0.0533.
  it('4.3.7: limits of 0.40 either way give 0.23', () => {
    const bounded: Weighed = { ...input(ratio(0n)), limit: mass('0.40') };
    expect(toDecimal(totalVariance([bounded]), 4, 'half-even')).toBe('0.0533');
    expect(rootText(totalVariance([bounded]), 2)).toBe('0.23');
  });

  // H.1, the gauge block, in nanometres: 5.8, 3.9 and 6.7 give 9.7; 25, 9.7, 2.9 and 16.6 give 32.
  it('H.1: independent parts add as squares', () => {
    expect(rootText(together('5.8', '3.9', '6.7'), 1)).toBe('9.7');
    expect(rootText(together('25', '9.7', '2.9', '16.6'), 0)).toBe('32');
  });

  // 5.2.2, its example of ten resistors calibrated with one standard: wholly correlated parts add up, 10 · 0.1 Ω = 1 Ω.
  it('5.2.2: what ten inputs share adds up before it is squared', () => {
    const shared: Weighed = { ...input(ratio(0n)), limit: mass('0.1') };
    const variance = totalVariance(Array.from({ length: 10 }, () => shared));
    expect(times(variance, ratio(3n))).toEqual(sum(ratio(0n), [ratio(1n)]));
  });
});
