import { describe, expect, it } from 'vitest';
import type { SizeWish } from '../../../src/core/plan/plan.ts';
import { toExact } from '../../../src/core/quantity/decimal.ts';
import { asWritten, codes, oneBowl, plan } from '../../helpers/plan.ts';
import { adding, cedarDomes, mass, number, phaseOf, sheetOf } from '../../helpers/sheet.ts';

const size = (wish: SizeWish, sheet = cedarDomes()) => {
  const { batchMass, pieces, remainder, factor, binds } = plan(sheet, wish).plan.size;
  return [
    toExact(batchMass),
    pieces,
    toExact(remainder),
    toExact(factor),
    ...(binds === undefined ? [] : [binds]),
  ].join(' | ');
};

const have = (key: string) =>
  plan(cedarDomes(), { by: 'have', have: new Map([[key, mass('500')]]) });

const bowl = (holds?: string) =>
  sheetOf(
    [
      phaseOf('A', [adding('salt', '600g'), adding('oil', '400g')], {
        vessel: { name: 'bowl', ...(holds === undefined ? {} : { holds: mass(holds) }) },
      }),
    ],
    { basis: 'absolute' },
  );

describe('the size of a batch', () => {
  it('scales by pieces over count', () => {
    // 24 · 95 / 0.98 = 114000/49
    expect(size({ by: 'pieces', pieces: 24 })).toBe('114000/49 | 24 | 0 | 2/3');
  });

  it('makes whole pieces of a mass weighed in and shows the remainder', () => {
    // ⌊2400 · 0.98 / 95⌋ = 24; 2400 − 114000/49 = 3600/49; 2400 · 49 / 171000 = 196/285
    expect(size({ by: 'mass', mass: mass('2400') })).toBe('2400 | 24 | 3600/49 | 196/285');
  });

  it('makes whole pieces of a factor', () => {
    // 36 · 5/8 = 22.5 pieces; half a piece is 95 / 0.98 / 2 = 2375/49 g
    expect(size({ by: 'factor', factor: number('5/8') })).toBe('106875/49 | 22 | 2375/49 | 0.625');
  });

  it('finds what binds among what there is', () => {
    // 54 pieces take 1379.4 g of citric acid, 55 take 1404.9 g
    const have = new Map([
      ['bicarbonate', mass('5000')],
      ['citric acid', mass('1400')],
    ]);
    expect(size({ by: 'have', have })).toBe('256500/49 | 54 | 0 | 1.5 | citric acid');
  });

  it('finds what binds among materials, vessels and scales', () => {
    const plenty = new Map([
      ['salt', mass('900000')],
      ['oil', mass('5000')],
    ]);
    expect(size({ by: 'have', have: plenty }, bowl())).toBe('12500 | 125 | 0 | 12.5 | oil');
    expect(size({ by: 'have', have: plenty }, bowl('2450'))).toBe('2400 | 24 | 0 | 2.4 | bowl');
    // Salt is the heavier line: 1.01 · 60 g a piece, and 20 · 10 kg are carried.
    const more = new Map([['oil', mass('900000')]]);
    expect(size({ by: 'have', have: more }, bowl())).toBe('330000 | 3300 | 0 | 330 | big');
  });

  it('sums a material over its lines', () => {
    const twice = sheetOf(
      [
        phaseOf('A', [adding('salt', '40g'), adding('oil', '20g')]),
        phaseOf('B', [adding('salt', '40g')]),
      ],
      { basis: 'absolute' },
    );
    const have = new Map([['salt', mass('79')]]);
    expect(size({ by: 'have', have }, twice)).toBe('90 | 9 | 0 | 0.9 | salt');
  });

  it('adds an absolute sheet up, adjust steps apart', () => {
    expect(size(asWritten, oneBowl(['250', '750.5']))).toBe('1000.5 | 10 | 0 | 1');
    expect(size({ by: 'pieces', pieces: 20 }, oneBowl(['250', '750.5']))).toBe('2001 | 20 | 0 | 2');
    expect(size({ by: 'mass', mass: mass('550') }, oneBowl(['250', '750']))).toBe(
      '550 | 5 | 50 | 0.55',
    );
  });

  it.each([
    ['pieces', { by: 'pieces', pieces: 0 }],
    ['pieces that are no whole number', { by: 'pieces', pieces: Number.NaN }],
    ['a mass under one piece', { by: 'mass', mass: mass('96.9') }],
    ['a factor of nothing', { by: 'factor', factor: number('0') }],
    ['a factor below nothing', { by: 'factor', factor: number('-1') }],
    ['what there is', { by: 'have', have: new Map([['cornflour', mass('3')]]) }],
  ] as const)('says when %s makes no whole piece', (_, wish) => {
    expect(codes(plan(cedarDomes(), wish).problems)).toContain('no-whole-piece');
  });

  it('says no more than that of a batch of nothing', () => {
    const nothing: SizeWish = { by: 'factor', factor: number('0') };
    expect(codes(plan(cedarDomes(), nothing).problems)).toEqual(['no-whole-piece']);
  });

  it('makes one piece of exactly its mass', () => {
    const { plan: planned, problems } = plan(cedarDomes(), { by: 'mass', mass: mass('4750/49') });
    expect(planned.size.pieces).toBe(1);
    expect(codes(problems)).not.toContain('no-whole-piece');
  });

  it('refuses stock of a material that the sheet does not weigh in', () => {
    expect(codes(have('salt').problems)).toEqual(['undeclared-material']);
    expect(codes(have('water').problems)).toEqual(['unused-material']);
    expect(have('salt').plan.size.pieces).toBe(36);
  });
});
