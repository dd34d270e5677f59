import { describe, expect, it } from 'vitest';
import { toExact } from '../../../src/core/quantity/decimal.ts';
import { repeatabilityOf } from '../../../src/core/scale/repeatability.ts';
import { mass } from '../../helpers/sheet.ts';

const from = (texts: string): string | undefined => {
  const s = repeatabilityOf(texts.split(' ').map(mass));
  return s && toExact(s);
};

describe('repeatability', () => {
  // Invented: five readings 0.1 above and five 0.1 below the mean give √(10 · 0.01 / 9) = 0.105409…
  it('is the sample standard deviation of ten readings, to a microgram', () => {
    expect(from('100.1 99.9 100.1 99.9 100.1 99.9 100.1 99.9 100.1 99.9')).toBe('0.105409');
    expect(from(Array.from({ length: 12 }, () => '50').join(' '))).toBe('0');
  });

  it('is not taken from fewer', () => {
    expect(from('1 2 3 4 5 6 7 8 9')).toBeUndefined();
  });
});
