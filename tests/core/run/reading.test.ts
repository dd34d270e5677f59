import { describe, expect, test } from 'vitest';
import { asked } from '../../../src/core/run/asked.ts';
import { lot, net } from '../../helpers/bench-sheet.ts';
import { additionState, given, openRun, type Story } from '../../helpers/given.ts';
import { sheetText } from '../../helpers/sheet-text.ts';
import {
  amend,
  back,
  contentsOf,
  plain,
  poursOf,
  read,
  soda,
  tare,
  totalOf,
  weighed,
} from '../../helpers/weigh.ts';

const acid = soda.after(net(1, '600'), lot(2, 'A-1'));

const sided = (tolerance: string): Story =>
  given(
    sheetText(['        amount: 600 g', `        amount: 600 g\n        tolerance: ${tolerance}`]),
    ...weighed,
  );

describe('net', () => {
  test('a later reading takes the place of an earlier one, and both are kept', () => {
    const story = soda.after(net(1, '500'), net(1, '600'));
    expect(totalOf(story, 1)).toBe('600');
    expect(contentsOf(story, 'bowl')).toBe('600');
    expect(openRun(story).events.filter(each => each.event.type === 'reading-taken')).toHaveLength(
      2,
    );
  });

  test('what is poured after a tare adds up', () => {
    const story = soda.after(net(1, '500'), tare(1), net(1, '60'), tare(1), net(1, '40.1'));
    expect(totalOf(story, 1)).toBe('600.1');
    expect(openRun(story).steps[0]?.status).toBe('done');
  });

  test('a reading that fell since the last one is refused; after a tare it is not', () => {
    const story = soda.after(net(1, '500'));
    story.when(net(1, '100')).refuses('reading-fell');
    expect(totalOf(story.after(tare(1), net(1, '100')), 1)).toBe('600');
  });

  test.each([
    ['593.9', 'under'],
    ['594.0', 'in'],
    ['606.0', 'in'],
    ['606.1', 'over'],
  ])('%s is %s: an edge of the window is in it, one division beyond is not', (typed, verdict) => {
    expect(additionState(soda.after(net(1, typed)), 1).verdict).toBe(verdict);
  });

  test('another unit than the display’s is read as such', () => {
    // 21.164 oz are 599.99 g: NIST HB 44 App. C, 1 oz = 28.349523125 g.
    const story = soda.after(net(1, '21.164 oz'));
    expect(totalOf(story, 1)).toBe('599.9893074175');
  });
});

describe('one-sided windows', () => {
  test.each([
    ['-0 g +2 g', '599.9', 'under'],
    ['-0 g +2 g', '600.0', 'in'],
    ['-0 g +2 g', '602.0', 'in'],
    ['-0 g +2 g', '602.1', 'over'],
    ['-1 %', '594.0', 'in'],
    ['-1 %', '593.9', 'under'],
    ['-1 %', '600.0', 'in'],
    ['-1 %', '600.1', 'over'],
  ])('with %s, %s is %s', (tolerance, typed, verdict) => {
    expect(additionState(sided(tolerance).after(net(1, typed)), 1).verdict).toBe(verdict);
  });
});

describe('gross', () => {
  test('counts from all that stood on the scale before', () => {
    acid.when(read(2, 'gross', 'display', '1300')).gives({
      type: 'reading-taken',
      step: 2,
      way: 'gross',
      part: 'display',
      reading: { typed: '1300', unit: 'g', mass: '1300', scale: 'big' },
      vessel: 'bowl',
      lot: 'A-1',
      judged: { net: '400', total: '400', verdict: 'in' },
    });
  });

  test('goes on where the net left off, without a tare', () => {
    const story = soda.after(net(1, '500'), read(1, 'gross', 'display', '900.5'));
    expect(totalOf(story, 1)).toBe('600.5');
    expect(contentsOf(story, 'bowl')).toBe('600.5');
  });

  test('adds to the pours before a tare', () => {
    const story = soda.after(net(1, '500'), tare(1), read(1, 'gross', 'display', '900'));
    expect(poursOf(story, 1)).toEqual([
      ['S-1', '500', '0'],
      ['S-1', '100', '0'],
    ]);
  });
});

describe('by difference', () => {
  const before = soda.after(read(1, 'difference', 'before', '1500'));

  test('the container before and after give the net', () => {
    expect(before.asks()).toBe('after');
    expect(totalOf(before, 1)).toBe('0');
    const story = before.after(read(1, 'difference', 'after', '900'));
    expect(totalOf(story, 1)).toBe('600');
    expect(openRun(story).steps[0]?.status).toBe('done');
  });

  test('more is poured from the same container', () => {
    const story = before.after(read(1, 'difference', 'after', '1000'));
    expect(story.asks()).toBe('after');
    expect(totalOf(story.after(read(1, 'difference', 'after', '899.9')), 1)).toBe('600.1');
  });

  test('after a tare another container adds to it', () => {
    const story = before.after(
      read(1, 'difference', 'after', '1000'),
      tare(1),
      read(1, 'difference', 'before', '400'),
      read(1, 'difference', 'after', '300'),
    );
    expect(totalOf(story, 1)).toBe('600');
  });

  test('a container that came back heavier is refused', () => {
    before.when(read(1, 'difference', 'after', '1500.1')).refuses('negative-net');
    before.when(read(1, 'difference', 'after', '1500')).refuses('nothing-read');
  });

  test('the container before can be amended', () => {
    const story = before.after(amend(4, '1600'), read(1, 'difference', 'after', '1000'));
    expect(totalOf(story, 1)).toBe('600');
  });

  test('what was poured too much is put back into the container', () => {
    const story = before.after(
      read(1, 'difference', 'after', '800'),
      back(1, '900', 'difference', 'after'),
    );
    expect(totalOf(story, 1)).toBe('600');
  });
});

describe('in a cup', () => {
  // A window of 0.09 g is nine divisions of the fine scale: what sticks to the cup could matter.
  const narrow = sheetText(
    ['        amount: 400 g', '        amount: 9 g\n        tolerance: 0.045 g'],
    ['fill: 100 g', 'fill: 60.9 g'],
  );
  const cup = given(narrow, ...weighed, net(1, '600'), lot(2, 'A-1'));
  const full = cup.after(read(2, 'cup', 'display', '9.04'));

  test('the cup is put back when the window is narrower than ten divisions', () => {
    expect(full.asks()).toBe('residue');
    const story = full.after(read(2, 'cup', 'residue', '0.03'));
    expect(totalOf(story, 2)).toBe('9.01');
    expect(contentsOf(story, 'bowl')).toBe('609.01');
    expect(openRun(story).steps[1]?.status).toBe('done');
  });

  test('an empty cup leaves the net as it was', () => {
    expect(totalOf(full.after(read(2, 'cup', 'residue', '0')), 2)).toBe('9.04');
  });

  test('a wider window does not ask for it', () => {
    expect(openRun(soda.after(read(1, 'cup', 'display', '600'))).steps[0]?.status).toBe('done');
    const ten = given(
      narrow.replace('0.045 g', '0.05 g'),
      ...weighed,
      net(1, '600'),
      lot(2, 'A-1'),
    );
    expect(openRun(ten.after(read(2, 'cup', 'display', '9.04'))).steps[1]?.status).toBe('done');
  });

  test('what the residue leaves too little is added in a cup that is tared anew', () => {
    const story = full.after(read(2, 'cup', 'residue', '1'));
    expect(story.asks()).toBe('reading');
    story.when(read(2, 'cup', 'display', '0.95')).gives(
      { type: 'tared', step: 2 },
      {
        type: 'reading-taken',
        step: 2,
        way: 'cup',
        part: 'display',
        reading: { typed: '0.95', unit: 'g', mass: '0.95', scale: 'fine' },
        vessel: 'bowl',
        lot: 'A-1',
        judged: { net: '0.95', total: '8.99', verdict: 'in' },
      },
    );
  });

  test('a tare that was typed already is not recorded twice', () => {
    const story = full.after(
      read(2, 'cup', 'residue', '1'),
      tare(2),
      read(2, 'cup', 'display', '0.95'),
    );
    expect(openRun(story).events.filter(each => each.event.type === 'tared')).toHaveLength(1);
  });

  test('a cup cannot come back lighter than empty', () => {
    full.when(read(2, 'cup', 'residue', '-0.02')).refuses('negative-net');
  });

  test('a residue without a cup is refused', () => {
    cup.when(read(2, 'cup', 'residue', '0.02')).refuses('wrong-kind');
  });

  test('too much is taken back out of the cup, before its residue is weighed', () => {
    const story = cup.after(read(2, 'cup', 'display', '9.5'), back(2, '9.01', 'cup'));
    expect(story.asks()).toBe('residue');
    expect(poursOf(story, 2)).toEqual([['A-1', '9.01', '0.49']]);
  });

  test('a mistyped cup is amended while its residue is waited for', () => {
    const story = full.after(amend(6, '9.03'), read(2, 'cup', 'residue', '0.02'));
    expect(totalOf(story, 2)).toBe('9.01');
  });
});

describe('more than one weighing', () => {
  // No scale carries 600 g at once here, so the line is planned as several weighings.
  const heavy = sheetText(
    ['        amount: 600 g', '        amount: 15 kg'],
    ['fill: 100 g', 'fill: 1540 g'],
  );
  test('the cups of one line add up', () => {
    const begun = given(heavy);
    expect(openRun(begun).plan.additions[0]).toMatchObject({ weighings: 2, place: 'cup' });
    const story = begun.after(...weighed, net(1, '8000'), tare(1), net(1, '7000'));
    expect(totalOf(story, 1)).toBe('15000');
    expect(openRun(story).steps[0]?.status).toBe('done');
  });

  test('each is judged by its part, the sum by the whole window', () => {
    const story = given(heavy).after(...weighed, net(1, '7400'));
    expect(story.asks()).toBe('reading');
    // 15 kg ± 1 % in two goes of 7.5 kg ± 75 g: the first is 25 g under its part, the next follows a tare.
    story
      .after(net(1, '7425'))
      .when(net(1, '7575'))
      .gives(
        { type: 'tared', step: 1 },
        {
          type: 'reading-taken',
          step: 1,
          way: 'net',
          part: 'display',
          reading: { typed: '7575', unit: 'g', mass: '7575', scale: 'big' },
          vessel: 'bowl',
          lot: 'S-1',
          judged: { net: '7575', total: '15000', part: 'in', verdict: 'in' },
        },
      );
  });
});

describe('a lot that runs out', () => {
  test('is followed by a second one, each with its part of the mass', () => {
    const story = soda.after(net(1, '250'), lot(1, 'S-2'), net(1, '350.5'));
    expect(poursOf(story, 1)).toEqual([
      ['S-1', '250', '0'],
      ['S-2', '350.5', '0'],
    ]);
    expect(totalOf(story, 1)).toBe('600.5');
  });

  test('a lot named wrongly and put right before pouring leaves nothing behind', () => {
    const story = soda.after(lot(1, 'S-9'), net(1, '600'));
    expect(poursOf(story, 1)).toEqual([['S-9', '600', '0']]);
  });

  test('is asked about with the lot used last', () => {
    const again = given(
      plain
        .replace(
          '      - hold: 10 min\n        for: Rest.\n',
          '      - add: soda\n        amount: 1 g\n',
        )
        .replace('fill: 100 g', 'fill: 100.1 g'),
      ...weighed,
      net(1, '600'),
      lot(2, 'A-1'),
      net(2, '400'),
    );
    const { run, now } = again;
    expect(run.phase === 'open' && asked(run, now)).toMatchObject({ kind: 'lot', known: 'S-1' });
  });
});
