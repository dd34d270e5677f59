import { describe, expect, it } from 'vitest';
import { toExact, toFraction } from '../../../src/core/quantity/decimal.ts';
import { remedies } from '../../../src/core/remedy/remedies.ts';
import type { Limit } from '../../../src/core/sheet/sheet.ts';
import {
  type GivenLine,
  givenLines,
  masses,
  offeredOf,
  onScaleOf,
  reasonOf,
  remedyOf,
} from '../../helpers/remedy-given.ts';
import { mass, number, percent, tolerance } from '../../helpers/sheet.ts';

const place = { line: 1, column: 1 };
const mostOf = (material: string, most: string, more: object = {}): Limit => ({
  kind: 'share',
  material,
  most: percent(most),
  place,
  ...more,
});

const three = (first: string, second: string): readonly GivenLine[] => [
  { target: '600', in: first },
  { target: '300', in: second },
  { target: '100' },
];

describe('the worked examples of correction.md', () => {
  it.each([
    ['one line over', three('600.0', '312.0'), '104/101', ['1: 17.8'], ['3: 103']],
    ['all in their windows', three('600.0', '302.9'), '1/1', [], ['3: 100']],
    ['two lines off', three('604.0', '315.0'), '105/101', ['1: 19.8'], ['3: 104']],
    [
      'room to pour above a least load',
      [
        { target: '500', in: '500.0', ...onScaleOf('20') },
        { target: '20', in: '20.6', ...onScaleOf('20') },
      ],
      '5202/5050',
      ['1: 20'],
      [],
    ],
    [
      'a window with one side',
      [
        { target: '100', in: '100.0', tolerance: tolerance('0%', '1%') },
        { target: '300', in: '309.1' },
      ],
      '3091/3030',
      ['1: 2.1'],
      [],
    ],
  ] as const)('%s: least stretch', (_, lines, stretch, topUps, targets) => {
    const least = offeredOf(givenLines(lines), 'least-stretch');
    expect(toFraction(least.stretch)).toBe(toFraction(number(stretch)));
    expect(masses(least.topUps)).toEqual(topUps);
    expect(masses(least.targets)).toEqual(targets);
  });

  it('passes over the stretches that break a limit', () => {
    const limited = givenLines(three('600.0', '312.0'), { limits: [mostOf('m2', '30.2')] });
    expect(remedyOf(limited, 'least-stretch')).toMatchObject({
      possible: false,
      stretch: number('104/101'),
      reason: { code: 'limit', finding: { limit: { material: 'm2' }, holds: false } },
    });
    const pieces = offeredOf(limited, 'whole-pieces');
    expect(pieces.stretch).toEqual(number('38/36'));
    expect(masses(pieces.topUps)).toEqual(['1: 33.3', '2: 4.7']);
    expect(masses(pieces.targets)).toEqual(['3: 105.6']);
    expect(pieces.forcedBy).toMatchObject({ code: 'limit' });
  });
});

describe('the list', () => {
  it('always has the same order', () => {
    expect(remedies(givenLines(three('600.0', '312.0'))).map(each => each.kind)).toEqual([
      'take-back',
      'least-stretch',
      'whole-pieces',
      'exact-proportion',
      'accept',
      'scrap',
    ]);
  });

  it('gives size and pieces of each stretch', () => {
    const situation = givenLines(three('600.0', '312.0'));
    const size = (kind: 'least-stretch' | 'whole-pieces' | 'exact-proportion') => {
      const { stretch, batchMass, pieces } = offeredOf(situation, kind);
      return [toFraction(stretch), toExact(batchMass), pieces];
    };
    expect(size('least-stretch')).toEqual(['104/101', '104000/101', 37]);
    expect(size('whole-pieces')).toEqual(['19/18', '9500/9', 38]);
    expect(size('exact-proportion')).toEqual(['26/25', '1040', 37]);
  });
});

const over = (canTakeBack: boolean) =>
  givenLines([
    { target: '600', in: '600.0' },
    { target: '300', in: '312.0', canTakeBack },
  ]);

describe('taking back', () => {
  it('says how much to lift out', () => {
    const offered = offeredOf(over(true), 'take-back');
    expect(masses(offered.lifts)).toEqual(['2: 12']);
    expect(masses(offered.targets)).toEqual(['2: 300']);
    expect(offered.topUps).toEqual([]);
  });

  it('ends with the next thing that goes into the vessel', () => {
    expect(reasonOf(over(false), 'take-back')).toBe('added-since');
  });

  it('is not offered where nothing is over', () => {
    expect(reasonOf(givenLines(three('600.0', '300.0')), 'take-back')).toBe('nothing-over');
  });
});

const wetting = (isDone: boolean) => ({
  phase: 'Base',
  material: 'water',
  vessel: 'bowl',
  net: mass('0'),
  most: mass('100'),
  isDone,
});

describe('accepting', () => {
  it('shows the share that it leads to', () => {
    const { shares } = offeredOf(givenLines(three('600.0', '312.0')), 'accept');
    expect(shares).toEqual([
      { n: 2, material: 'm2', planned: number('3/10'), projected: number('312/1012') },
    ]);
  });

  it('is refused where it breaks a limit that still holds', () => {
    const limits = [mostOf('m2', '30.5')];
    expect(reasonOf(givenLines(three('600.0', '312.0'), { limits }), 'accept')).toBe('limit');
  });

  it('does not mind a limit that is broken without it', () => {
    const limits = [mostOf('m2', '29')];
    expect(reasonOf(givenLines(three('600.0', '312.0'), { limits }), 'accept')).toBeUndefined();
  });

  it('counts an adjust step at its most', () => {
    const limits: readonly Limit[] = [
      { kind: 'share', material: 'm1', least: percent('54'), place },
    ];
    const after = (isDone: boolean) =>
      givenLines(three('600.0', '312.0'), { limits, adjusts: [wetting(isDone)] });
    expect(reasonOf(after(false), 'accept')).toBe('limit');
    expect(reasonOf(after(true), 'accept')).toBeUndefined();
  });

  it('takes up what is under where nothing is over', () => {
    const { shares, topUps } = offeredOf(givenLines(three('590.0', '300.0')), 'accept');
    expect(shares.map(each => each.n)).toEqual([1]);
    expect(topUps).toEqual([]);
    expect(reasonOf(givenLines(three('600.0', '300.0')), 'accept')).toBe('in-window');
  });

  it('leaves an accepted line out of later remedies while the size stays, and tops it up when it grows', () => {
    const lines: readonly GivenLine[] = [
      { target: '600', in: '590.0', state: 'accepted' },
      { target: '300', in: '312.0', canTakeBack: true },
    ];
    expect(offeredOf(givenLines(lines), 'take-back').topUps).toEqual([]);
    expect(masses(offeredOf(givenLines(lines), 'least-stretch').topUps)).toEqual(['1: 27.8']);
  });
});

describe('a stretch', () => {
  it('tops up what is under, and goes on with what is partly poured', () => {
    const least = offeredOf(
      givenLines([
        { target: '600', in: '590.0' },
        { target: '300', in: '120.0', state: 'open' },
      ]),
      'least-stretch',
    );
    expect(toFraction(least.stretch)).toBe('1/1');
    expect(masses(least.topUps)).toEqual(['1: 10']);
    expect(masses(least.targets)).toEqual(['2: 300']);
  });

  it('goes to whole pieces from a batch that has a remainder', () => {
    const remainder = { pieces: 36, perPiece: mass('2000/73') };
    const pieces = offeredOf(givenLines(three('600.0', '312.0'), remainder), 'whole-pieces');
    expect([toFraction(pieces.stretch), pieces.pieces]).toEqual(['76/73', 38]);
  });

  it('asks for no room above the least load where nothing is in yet', () => {
    const lines: readonly GivenLine[] = [
      { target: '500', in: '500.0' },
      { target: '20.1', ...onScaleOf('20.2') },
    ];
    const least = offeredOf(givenLines(lines), 'least-stretch');
    expect(toFraction(least.stretch)).toBe('1/1');
    expect(masses(least.targets)).toEqual(['2: 20.2']);
  });

  it('gives a target to a line whose window reaches down to nothing', () => {
    const wide = tolerance('20g');
    const least = offeredOf(givenLines([{ target: '10', tolerance: wide }]), 'least-stretch');
    expect(masses(least.targets)).toEqual(['1: 10']);
  });

  it('stops at a vessel that is full', () => {
    const vessels = new Map([['bowl', { name: 'bowl', mass: mass('912'), holds: mass('1020') }]]);
    const full = givenLines(three('600.0', '312.0'), { vessels });
    expect(remedyOf(full, 'least-stretch')).toMatchObject({
      reason: { code: 'vessel-full', vessel: 'bowl', mass: mass('1032.8'), holds: mass('1020') },
    });
    expect(reasonOf(full, 'whole-pieces')).toBe('vessel-full');
    expect(reasonOf(full, 'accept')).toBeUndefined();
  });

  it('counts what is to be tipped into a vessel', () => {
    const vessels = new Map([
      ['bowl', { name: 'bowl', mass: mass('912'), into: 'pan' }],
      ['pan', { name: 'pan', mass: mass('100'), holds: mass('1132.7') }],
    ]);
    const full = givenLines(three('600.0', '312.0'), { vessels });
    expect(remedyOf(full, 'least-stretch')).toMatchObject({
      reason: { code: 'vessel-full', vessel: 'pan', mass: mass('1132.8') },
    });
  });

  it('stops where the stock runs out', () => {
    const stock = new Map([['m1', mass('17.7')]]);
    expect(remedyOf(givenLines(three('600.0', '312.0'), { stock }), 'least-stretch')).toMatchObject(
      {
        reason: { code: 'stock-short', material: 'm1', needs: mass('17.8'), left: mass('17.7') },
      },
    );
  });

  it('stops where no weighing of a top-up lies between least load and capacity', () => {
    const lines: readonly GivenLine[] = [
      { target: '600', in: '600.0', ...onScaleOf('10', '15') },
      { target: '300', in: '312.0' },
    ];
    expect(remedyOf(givenLines(lines), 'least-stretch')).toMatchObject({
      reason: { code: 'scale-unfit', n: 1, mass: mass('17.8') },
    });
  });

  it('is a surplus where a closed phase has fixed the pieces', () => {
    const situation = givenLines([
      { target: '500', in: '500.3', isClosed: true, phase: 'Base' },
      { target: '300', in: '312.0', phase: 'Topping', vessel: 'jug' },
      { target: '100', phase: 'Glaze', vessel: 'pot' },
    ]);
    const least = offeredOf(situation, 'least-stretch');
    expect(least.batchMass).toEqual(mass('921303/1010'));
    expect(least.pieces).toBe(36);
    expect(least.surplus).toEqual([
      { phase: 'Topping', mass: mass('900/101') },
      { phase: 'Glaze', mass: mass('300/101') },
    ]);
    expect(reasonOf(situation, 'whole-pieces')).toBe('pieces-fixed');
  });

  it('does not help a line whose vessel is closed', () => {
    const situation = givenLines([
      { target: '500', in: '512.0', isClosed: true },
      { target: '300', vessel: 'jug' },
    ]);
    for (const kind of ['least-stretch', 'whole-pieces', 'exact-proportion'] as const) {
      expect(reasonOf(situation, kind)).toBe('vessel-closed');
    }
    expect(reasonOf(situation, 'take-back')).toBe('added-since');
    expect(reasonOf(situation, 'accept')).toBeUndefined();
  });

  it('leaps over a hundred counts of pieces that break a limit', () => {
    const limits = [mostOf('m2', '30.001')];
    const situation = givenLines(three('600.0', '390.0'), {
      limits,
      pieces: 1000,
      perPiece: mass('1'),
    });
    const pieces = offeredOf(situation, 'whole-pieces');
    expect(toFraction(pieces.stretch)).toBe('13/10');
  });

  it('is refused where windows without any width fit at no size within reach', () => {
    const shut = tolerance('0%', '0%');
    const situation = givenLines([
      { target: '100', in: '100.1', tolerance: shut },
      { target: '1000/3', in: '333.3', tolerance: shut },
      { target: '10007/30', tolerance: shut },
    ]);
    expect(reasonOf(situation, 'least-stretch')).toBe('no-size');
    expect(reasonOf(situation, 'whole-pieces')).toBe('no-size');
  });
});
