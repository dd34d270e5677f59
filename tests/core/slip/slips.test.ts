import { describe, expect, it } from 'vitest';
import { toExact } from '../../../src/core/quantity/decimal.ts';
import type { Display } from '../../../src/core/quantity/display.ts';
import { subtract } from '../../../src/core/quantity/quantity.ts';
import { readReading } from '../../../src/core/quantity/reading.ts';
import { thinSpace } from '../../../src/core/quantity/show.ts';
import type { Situation } from '../../../src/core/slip/slip.ts';
import { likelySlip, mentionedSlips, slips } from '../../../src/core/slip/slips.ts';
import { mass } from '../../helpers/sheet.ts';

// Invented benches.
const big: Display = { unit: 'g', readability: mass('0.1'), capacity: mass('10000') };

const at = (
  typed: string,
  target: string,
  side: string,
  more: Partial<Situation> = {},
): Situation => {
  const reading = readReading(typed, more.scale ?? big);
  if (!reading.ok) throw new Error(reading.message);
  const window = {
    low: subtract(mass(target), mass(side)),
    high: subtract(mass(target), mass(`-${side}`)),
  };
  return {
    reading,
    scale: big,
    target: mass(target),
    window,
    isFinished: true,
    totalIf: shown => shown,
    ...more,
  };
};

const first = (situation: Situation): string => {
  const slip = likelySlip(situation);
  return slip === undefined ? 'none' : `${slip.kind} ${slip.mass ? toExact(slip.mass) : '?'}`;
};

// The bowl and what is in it, 1412 g, are subtracted from what the display shows.
const lessBowl: Situation['totalIf'] = shown => subtract(shown, mass('1412'));

const bowl = { standing: mass('812'), already: mass('600') };

describe('a slip', () => {
  it.each<[string, string, string, Partial<Situation>, string]>([
    ['900.1', '300', '3', bowl, 'not-zeroed 300.1'],
    ['1712.1', '300', '3', bowl, 'not-tared 300.1'],
    ['1112.1', '300', '3', { standing: mass('812') }, 'not-tared 300.1'],
    ['1112.1', '300', '3', bowl, 'not-tared 300.1'],
    ['10.6', '300', '3', {}, 'ounces-grams 300.504945125'],
    ['300.5 oz', '300', '3', {}, 'ounces-grams 300.5'],
    ['2', '2000', '20', {}, 'kilograms-grams 2000'],
    ['2.0 kg', '2', '0.2', {}, 'kilograms-grams 2'],
    ['3001', '300', '3', {}, 'point-off 300.1'],
    ['30', '300', '3', {}, 'point-off 300'],
    ['821.4', '812', '3', {}, 'none'],
    ['182.4', '812', '10', {}, 'digits-swapped 812.4'],
    ['841.2', '812', '3', {}, 'digits-swapped 814.2'],
    ['600', '300', '3', { previous: mass('600') }, 'last-again ?'],
    ['600', '300', '3', { previous: mass('600.1') }, 'none'],
    ['340', '300', '3', bowl, 'none'],
  ])('in %s for %s ± %s g is told for what it is', (typed, target, side, more, expected) => {
    expect(first(at(typed, target, side, more))).toBe(expected);
  });

  it('is looked for under the window only when the pour is finished', () => {
    const situation = at('30', '300', '3');
    expect(first({ ...situation, isFinished: false })).toBe('none');
    expect(first(situation)).toBe('point-off 300');
  });

  it('is not looked for in the window, edges included', () => {
    expect(slips(at('303', '300', '3', { previous: mass('303') }))).toEqual([]);
    expect(slips(at('297', '300', '3', { previous: mass('297') }))).toEqual([]);
  });

  it('counts a right pour on the edge of its window', () => {
    expect(first(at('903', '300', '3', bowl))).toBe('not-zeroed 303');
    expect(first(at('903.1', '300', '3', bowl))).toBe('none');
  });

  it('is found in the digits of a gross reading too', () => {
    expect(first(at('7112', '300', '3', { totalIf: lessBowl }))).toBe('digits-swapped 300');
  });

  it('is found in ounces, pounds and the text of a device', () => {
    const postal = { ...big, unit: 'oz' };
    expect(first(at('ST,GS,+ 182.4 g', '812', '10'))).toBe('digits-swapped 812.4');
    expect(first(at('20.0', '20', '0.2', { scale: postal }))).toBe('ounces-grams 20');
    expect(first(at('1 lb 2.0 oz', '18', '1', { scale: postal }))).toBe('ounces-grams 18');
  });

  it('reads a decimal comma as it was meant before digits are swapped', () => {
    expect(
      first(at('0,123', '1.023', '0.004', { scale: { ...big, readability: mass('0.001') } })),
    ).toBe('digits-swapped 1.023');
  });

  it('takes ounces as exactly as they were typed', () => {
    // 10.7 oz are 303.3 g, but 10.65 oz would be shown alike: 301.9 g.
    expect(first(at('10.7', '300', '3'))).toMatch(/^ounces-grams 303\.3/);
    expect(first(at('10.8', '300', '3'))).toBe('none');
  });

  it('that is near is named only where it puts the pour close to its target', () => {
    const cup = { standing: mass('10') };
    expect(first(at('311', '300', '3', cup))).toBe('not-tared 301');
    const further = at('312.5', '300', '3', cup);
    expect(first(further)).toBe('none');
    expect(mentionedSlips(further).map(({ kind }) => kind)).toEqual(['not-tared']);
  });

  it('of swapped digits that is near is only mentioned', () => {
    const situation = at('102.0', '100', '1');
    expect(first(situation)).toBe('none');
    expect(mentionedSlips(situation)).toMatchObject([
      {
        kind: 'digits-swapped',
        shown: mass('100.2'),
        asks: 'Were two digits swapped? Or was it 100.2 g?',
      },
    ]);
    expect(mentionedSlips(at('100.9', '100', '1'))).toEqual([]);
  });

  it('that is exactly three widths off is near, one division more is far', () => {
    expect(first(at('132.0', '123', '1.5'))).toBe('none');
    expect(first(at('132.1', '123', '1.5'))).toBe('digits-swapped 123.1');
  });

  it('counts a window of no width as one division', () => {
    expect(first(at('3000', '300', '0'))).toBe('point-off 300');
  });
});

describe('the likeliest slip', () => {
  it('is the one that comes nearest to the target', () => {
    const both = at('900', '300', '3', { already: mass('598'), standing: mass('600') });
    expect(slips(both).map(({ kind }) => kind)).toEqual(['not-tared', 'not-zeroed']);
  });

  it('is a shifted point before a swap that is as near', () => {
    expect(slips(at('10.0', '100', '2')).map(({ kind }) => kind)).toEqual(['point-off']);
    expect(slips(at('1000', '100', '2')).map(({ kind }) => kind)).toEqual([
      'point-off',
      'digits-swapped',
    ]);
  });

  it('is the last reading again before all others', () => {
    const both = at('900', '300', '3', { ...bowl, previous: mass('900') });
    expect(slips(both).map(({ kind }) => kind)).toEqual(['last-again', 'not-zeroed']);
  });
});

const words = (situation: Situation): string => {
  const slip = likelySlip(situation);
  return `${slip?.asks} ${slip?.todo}`.replaceAll(thinSpace, ' ');
};

describe('what a maker reads of a slip', () => {
  it.each<[string, Situation, string]>([
    [
      'not zeroed',
      at('900.1', '300', '3', bowl),
      'Did the display still count the 600.0 g already on it (not zeroed)? 900.1 g less that is 300.1 g. If it did, 300.1 g is right: correct the reading.',
    ],
    [
      'not tared',
      at('1712.1', '300', '3', bowl),
      'Did the display still count the 1 412.0 g that stood on it (not tared)? 1 712.1 g less that is 300.1 g. If it did, 300.1 g is right: correct the reading.',
    ],
    [
      'ounces',
      at('10.6', '300', '3'),
      'Were ounces and grams exchanged? Then it is 300.5 g. Look at the unit on the display. If it is not the one typed, 300.5 g is right: correct the reading.',
    ],
    [
      'kilograms',
      at('2', '2000', '20'),
      'Were kilograms and grams exchanged? Then it is 2 000.0 g. Look at the unit on the display. If it is not the one typed, 2 000.0 g is right: correct the reading.',
    ],
    [
      'the point',
      at('3001', '300', '3'),
      'Is the point one place off? Or was it 300.1 g? Look at the display. If it shows 300.1 g, correct the reading.',
    ],
    [
      'swapped digits',
      at('182.4', '812', '10'),
      'Were two digits swapped? Or was it 812.4 g? Look at the display. If it shows 812.4 g, correct the reading.',
    ],
    [
      'the last reading',
      at('600', '300', '3', { previous: mass('600') }),
      'Is that the reading before, once more? It was 600.0 g too. Wait until the display is steady, then correct the reading to what it shows.',
    ],
  ])('%s', (_, situation, expected) => {
    expect(words(situation)).toBe(expected);
  });
});
