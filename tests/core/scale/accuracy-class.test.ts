import { describe, expect, it } from 'vitest';
import { checkClass } from '../../../src/core/scale/accuracy-class.ts';
import { factsOf } from '../../helpers/scale-facts.ts';

describe('a class, an interval and a capacity', () => {
  // Invented scales on the edges of OIML R 76-1 Table 3.
  it.each([
    ['I, 50 000 e', factsOf('50', '0.001', { accuracyClass: 'I' })],
    ['II of 0.05 g, 100 e', factsOf('5', '0.05', { accuracyClass: 'II' })],
    ['II of 0.1 g, 5000 e', factsOf('500', '0.1', { accuracyClass: 'II' })],
    ['II of 0.1 g, 100 000 e', factsOf('10000', '0.1', { accuracyClass: 'II' })],
    ['II that shows 0.01 g, e 0.1 g', factsOf('2000', '0.01', { accuracyClass: 'II', e: '0.1' })],
    ['III of 2 g, 100 e', factsOf('200', '2', { accuracyClass: 'III' })],
    ['III of 5 g, 500 e', factsOf('2500', '5', { accuracyClass: 'III' })],
    ['III of 1 g, 10 000 e', factsOf('10000', '1', { accuracyClass: 'III' })],
    ['IIII of 5 g, 1000 e', factsOf('5000', '5', { accuracyClass: 'IIII' })],
    ['no class at all', factsOf('10', '0.1')],
  ])('agree: %s', (_, facts) => {
    expect(checkClass(facts)).toBeUndefined();
  });

  it.each([
    [
      'Class I with this e has a capacity of 50000 e at least.',
      factsOf('49.9', '0.001', { accuracyClass: 'I' }),
    ],
    [
      'Class II with this e has a capacity of 5000 e at least.',
      factsOf('499.9', '0.1', { accuracyClass: 'II' }),
    ],
    [
      'Class II has a capacity of 100000 e at most.',
      factsOf('10000.1', '0.1', { accuracyClass: 'II' }),
    ],
    ['Class II has no scale with this e.', factsOf('500', '0.06', { accuracyClass: 'II' })],
    ['Class III has no scale with this e.', factsOf('500', '0.05', { accuracyClass: 'III' })],
    [
      'Class III has a capacity of 10000 e at most.',
      factsOf('10000', '0.1', { accuracyClass: 'III' }),
    ],
    ['Class IIII has no scale with this e.', factsOf('1000', '1', { accuracyClass: 'IIII' })],
    ['e cannot be finer than what the scale shows.', factsOf('1000', '1', { e: '0.1' })],
  ])('do not: %s', (message, facts) => {
    expect(checkClass(facts)).toMatchObject({ message });
  });
});
