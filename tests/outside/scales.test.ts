/** Scales and test masses against published figures. */
import { describe, expect, it } from 'vitest';
import type { AccuracyClass } from '../../src/core/plan/plan.ts';
import { toExact } from '../../src/core/quantity/decimal.ts';
import { one, type Quantity } from '../../src/core/quantity/quantity.ts';
import { massIn } from '../../src/core/quantity/unit.ts';
import {
  accuracyClasses,
  initialLimit,
  inServiceLimit,
  minimumCapacity,
} from '../../src/core/scale/accuracy-class.ts';
import { minimumWeight } from '../../src/core/scale/repeatability.ts';
import {
  type TestMassClass,
  testMassClasses,
  testMassLimit,
} from '../../src/core/scale/test-mass.ts';
import { mass, number } from '../helpers/sheet.ts';

const text = (value: Quantity<string> | undefined): string | undefined => value && toExact(value);

// OIML R 76-1 (2006) Table 6: the last load in e of each band, then one tenth of an e beyond it.
const bands: readonly [AccuracyClass, string, string, string][] = [
  ['I', '50000', '200000', '1000000'],
  ['II', '5000', '20000', '100000'],
  ['III', '500', '2000', '10000'],
  ['IIII', '50', '200', '1000'],
];

describe('errors allowed by OIML R 76-1 Table 6', () => {
  it('are listed for every class', () => {
    expect(bands.map(([accuracyClass]) => accuracyClass)).toEqual(accuracyClasses);
  });

  it.each(bands)('of class %s step at %s, %s and %s e', (accuracyClass, first, second, last) => {
    const e = mass('1');
    const at = (load: string): string[] =>
      [initialLimit, inServiceLimit].map(limit => toExact(limit(accuracyClass, e, mass(load))));
    expect(at('0')).toEqual(['0.5', '1']);
    expect(at(first)).toEqual(['0.5', '1']);
    expect(at(`${first}.1`)).toEqual(['1', '2']);
    expect(at(second)).toEqual(['1', '2']);
    expect(at(`${second}.1`)).toEqual(['1.5', '3']);
    expect(at(last)).toEqual(['1.5', '3']);
  });

  // NIST Handbook 133 (2026) chapter 2: 1500 g on d = 0.1 g, class II, one division.
  it('are one division for 1500 g on 0.1 g, as Handbook 133 works out', () => {
    expect(text(initialLimit('II', mass('0.1'), mass('1500')))).toBe('0.1');
  });

  it('hold both ways from zero', () => {
    expect(text(initialLimit('III', mass('1'), mass('-501')))).toBe('1');
  });
});

describe('minimum capacities of OIML R 76-1 Table 3', () => {
  it.each<[AccuracyClass, string, string | undefined]>([
    ['I', '0.001', '0.1'],
    ['I', '0.1', '10'],
    ['II', '0.001', '0.02'],
    ['II', '0.05', '1'],
    ['II', '0.1', '5'],
    ['II', '1', '50'],
    ['III', '0.1', '2'],
    ['III', '2', '40'],
    ['III', '5', '100'],
    ['IIII', '5', '50'],
    ['IIII', '10', '100'],
    ['I', '0.0005', undefined],
    ['II', '0.0005', undefined],
    ['III', '0.05', undefined],
    ['IIII', '2', undefined],
  ])('class %s, e %s g: %s g', (accuracyClass, e, least) => {
    expect(text(minimumCapacity(accuracyClass, mass(e)))).toBe(least);
  });
});

// OIML R 111-1 (2004) Table 1, milligrams either way; columns F1, F2, M1, M2.
const masses = `
  1     0.10  0.3   1.0   3.0
  2     0.12  0.4   1.2   4.0
  5     0.16  0.5   1.6   5.0
  10    0.20  0.6   2.0   6.0
  20    0.25  0.8   2.5   8.0
  50    0.3   1.0   3.0   10
  100   0.5   1.6   5.0   16
  200   1.0   3.0   10    30
  500   2.5   8.0   25    80
  1000  5.0   16    50    160
  2000  10    30    100   300
  5000  25    80    250   800`
  .trim()
  .split('\n')
  .map(line => line.trim().split(/\s+/));

describe('test masses of OIML R 111-1 Table 1', () => {
  it.each(masses)('%s g', (nominal = '', ...limits) => {
    const ours = testMassClasses.map((massClass: TestMassClass) =>
      testMassLimit(massClass, mass(nominal)),
    );
    expect(ours).toEqual(limits.map(limit => massIn(number(limit), 'mg')));
  });

  it('are none for a nominal mass in between', () => {
    expect(testMassLimit('M1', mass('300'))).toBeUndefined();
    expect(testMassLimit('M1', mass('0'))).toBeUndefined();
  });
});

const milligrams = (value: string) => massIn(number(value), 'mg');

describe('minimum weights of USP <41>', () => {
  // Examples quoted from USP <41>, milligrams; d is fine enough not to matter.
  it.each([
    ['0.02', '40'],
    ['0.03', '60'],
    ['0.2', '400'],
    ['0.0025', '5'],
  ])('are 2000 s: s %s mg gives %s mg', (s, least) => {
    expect(minimumWeight(milligrams(s), milligrams('0.0001'))).toEqual(milligrams(least));
  });

  // The floor of 0.41 d: 820 d, whatever s is below it.
  it.each([
    ['0', '0.1', '82'],
    ['0.04', '0.1', '82'],
    ['0.041', '0.1', '82'],
    ['0.06', '0.1', '120'],
    ['0', '0.01', '8.2'],
    ['0', '1', '820'],
  ])('are never below 820 d: s %s g, d %s g gives %s g', (s, d, least) => {
    expect(text(minimumWeight(mass(s), mass(d)))).toBe(least);
  });
});

describe('ounces and pounds in readings', () => {
  // NIST Handbook 44 appendix C: the ounce is 28.349 523 125 g, the pound 453.592 37 g, both exact.
  it('are exact', () => {
    expect(toExact(massIn(one, 'oz'))).toBe('28.349523125');
    expect(toExact(massIn(one, 'lb'))).toBe('453.59237');
  });
});
