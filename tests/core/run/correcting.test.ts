import { describe, expect, test } from 'vitest';
import type { Intent } from '../../../src/core/run/intent.ts';
import { remediesOf } from '../../../src/core/run/situation-of-run.ts';
import { lot, net } from '../../helpers/bench-sheet.ts';
import { additionState, given, openRun, type Story } from '../../helpers/given.ts';
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

// Invented: acid may be 40.5 % of the batch, with up to 8 g more of it after the hold.
const adjusting = plain
  .replace('phases:', 'limits:\n  - {of: acid, in: batch, most: 40.5 %}\nphases:')
  .replace(
    '      - add: acid',
    '      - adjust: acid\n        most: 8 g\n        until: it is right\n      - add: acid',
  );
const accepted: Intent = { type: 'accept', step: 3, reason: 'mixed in well' };
const toAcid = [...weighed, net(1, '600'), lot(2, 'A-1')] as const;
/** Over by a gram in the acid, after so much of it was adjusted. */
const took = (typed: string): Story =>
  given(
    adjusting,
    ...toAcid,
    { type: 'adjust', step: 2, typed, confirmed: true },
    { type: 'finish-adjust', step: 2 },
    lot(3, 'A-1'),
    net(3, '405'),
  );

describe('taking back', () => {
  const over = soda.after(net(1, '650'));

  test('keeps both readings and counts what was lifted as waste', () => {
    const story = over.after(back(1, '620'), back(1, '601'));
    expect(poursOf(story, 1)).toEqual([['S-1', '601', '49']]);
    expect(contentsOf(story, 'bowl')).toBe('601');
    expect(openRun(story).steps[0]?.status).toBe('done');
  });

  test('too much taken back is poured again', () => {
    const story = over.after(back(1, '500'));
    expect(story.asks()).toBe('reading');
    expect(poursOf(story.after(net(1, '600')), 1)).toEqual([['S-1', '600', '150']]);
  });

  test('lifts out of the present pour only', () => {
    const story = soda.after(net(1, '500'), tare(1), net(1, '200'), back(1, '100'));
    expect(poursOf(story, 1)).toEqual([
      ['S-1', '500', '0'],
      ['S-1', '100', '100'],
    ]);
  });

  test('is only for what is over', () => {
    soda.after(net(1, '500')).when(back(1, '400')).refuses('wrong-kind');
  });

  test('what was taken back is not amended; the display is typed again', () => {
    over.after(back(1, '500')).when(amend(5, '600')).refuses('not-amendable');
  });
});

describe('accepting', () => {
  test('is refused where a limit that holds would break, and the line can still be taken back', () => {
    // Invented: soda may be 60.5 % of the batch; 612 of 1012 g are 60.47 %, 613 of 1013 g 60.51 %.
    const limited = plain.replace(
      'phases:',
      'limits:\n  - {of: soda, in: batch, most: 60.5 %}\nphases:',
    );
    const begun = given(limited, ...weighed);
    const accept: Intent = { type: 'accept', step: 1, reason: 'mixed in well' };
    expect(openRun(begun.after(net(1, '612'), accept)).steps[0]?.status).toBe('done');
    const story = begun.after(net(1, '613')).when(accept).refuses('limit-would-break');
    expect(openRun(story.after(back(1, '600'))).steps[0]?.status).toBe('done');
  });

  test('counts what an adjust step took', () => {
    // 405 + 3 of 1008 g are 40.48 %, 405 + 4 of 1009 g are 40.54 %.
    expect(openRun(took('3 g').after(accepted)).steps[2]?.status).toBe('done');
    took('4 g').when(accepted).refuses('limit-would-break');
  });

  test('counts the most that an adjust step may still take', () => {
    const least = adjusting.replace(
      '{of: acid, in: batch, most: 40.5 %}',
      '{of: soda, in: batch, least: 59 %}',
    );
    const under = given(least, ...weighed, net(1, '590'));
    // 590 of 990 g are 59.60 %, but 590 of 998 g are 59.12 %; 588 of 996 g are 59.04 %, 587 of 995 g 58.99 %.
    expect(openRun(under.after({ ...accepted, step: 1 })).steps[0]?.status).toBe('done');
    given(least, ...weighed, net(1, '587'))
      .when({ ...accepted, step: 1 })
      .refuses('limit-would-break');
  });

  test('is not held up by a limit that is broken already', () => {
    const story = given(
      adjusting,
      ...toAcid,
      { type: 'adjust', step: 2, typed: '100 g', confirmed: true },
      { type: 'finish-adjust', step: 2, reason: 'bag slipped' },
      lot(3, 'A-1'),
      net(3, '390'),
    );
    expect(openRun(story.after(accepted)).steps[2]?.status).toBe('done');
  });

  test('records what was found and what the window allows', () => {
    const story = soda.after(net(1, '655'), { type: 'accept', step: 1, reason: 'mixed in well' });
    expect(openRun(story).deviations).toEqual([
      {
        step: 1,
        what: 'over',
        found: '655',
        least: '594',
        most: '606',
        reason: 'mixed in well',
        at: '2027-03-04T09:04:00.000+01:00',
        by: 'Ana',
      },
    ]);
  });
});

describe('amending', () => {
  test('keeps both numbers in their events', () => {
    const story = soda.after(net(1, '650'), amend(4, '605'));
    expect(
      openRun(story)
        .events.slice(-2)
        .map(each => 'reading' in each.event && each.event.reading?.typed),
    ).toEqual(['650', '605']);
    expect(totalOf(story, 1)).toBe('605');
    expect(contentsOf(story, 'bowl')).toBe('605');
  });

  test('can be done again, on the amendment', () => {
    expect(totalOf(soda.after(net(1, '550'), amend(4, '500'), amend(5, '590')), 1)).toBe('590');
  });

  test('reaches a pour that a tare or another lot has ended', () => {
    const read = soda.after(net(1, '350'));
    expect(totalOf(read.after(tare(1), net(1, '250'), amend(4, '345')), 1)).toBe('595');
    const lots = read.after(lot(1, 'S-2'), net(1, '250'), amend(4, '345'));
    expect(poursOf(lots, 1)).toEqual([
      ['S-1', '345', '0'],
      ['S-2', '250', '0'],
    ]);
  });

  test('does not leave a witness waiting for a line that is out of its window again', () => {
    const witnessed = plain.replace(
      '        amount: 600 g',
      '        amount: 600 g\n        witness: yes',
    );
    const story = given(witnessed, ...weighed, net(1, '600'));
    expect(story.asks()).toBe('witness');
    expect(story.after(amend(4, '655')).asks()).toBe('over');
    expect(story.after(amend(4, '500')).asks()).toBe('reading');
  });

  test('is refused for a reading that another has taken the place of', () => {
    soda.after(net(1, '350'), net(1, '580')).when(amend(4, '340')).refuses('not-amendable');
  });

  describe('a line that is done', () => {
    const done = soda.after(net(1, '600'), lot(2, 'A-1'), net(2, '400'));

    test('stays done while it is in its window', () => {
      const story = done.after(amend(4, '604.5'));
      expect(totalOf(story, 1)).toBe('604.5');
      expect(contentsOf(story, 'bowl')).toBe('1004.5');
      expect(story.asks()).toBe(done.asks());
      expect(additionState(story, 1).doneAt).toEqual(additionState(done, 1).doneAt);
    });

    test('is in hand again when it is under; what is poured then adds to it', () => {
      const story = done.after(amend(4, '500'));
      expect([story.asks(), contentsOf(story, 'bowl')]).toEqual(['reading', '900']);
      const more = story.after(net(1, '98'));
      expect([totalOf(more, 1), contentsOf(more, 'bowl'), more.asks()]).toEqual([
        '598',
        '998',
        done.asks(),
      ]);
    });

    test('is in hand again when it is over; it cannot be lifted out of what came after', () => {
      const story = done.after(amend(4, '650'));
      expect(story.asks()).toBe('over');
      expect(remediesOf(openRun(story))[0]).toMatchObject({ kind: 'take-back', possible: false });
      story.when(back(1, '600')).refuses('cannot-take-back');
    });

    test('can be lifted out as long as nothing came after', () => {
      const story = soda.after(net(1, '600'), amend(4, '655'));
      expect(story.asks()).toBe('over');
      expect(totalOf(story.after(back(1, '600')), 1)).toBe('600');
    });

    test('leaves its acceptance in the record and is judged again', () => {
      const accepted = soda.after(net(1, '580'), { type: 'accept', step: 1, reason: 'sieved out' });
      const right = accepted.after(amend(4, '598'));
      expect(openRun(right).deviations).toMatchObject([{ step: 1, what: 'under', found: '580' }]);
      expect(right.asks()).toBe('lot');
      expect(accepted.after(amend(4, '570')).asks()).toBe('reading');
    });

    test('wants a reason at once where its vessel was emptied, and nothing else', () => {
      const emptied = given(
        plain.replace('      - hold', '      - do: Press.\n        empties: bowl\n      - hold'),
        ...weighed,
        net(1, '600'),
        lot(2, 'A-1'),
        net(2, '400'),
        { type: 'tick', step: 3 },
      );
      const story = emptied.after(amend(4, '650'));
      expect([story.asks(), contentsOf(story, 'bowl')]).toEqual(['gone', '0']);
      story.when({ type: 'start-hold', step: 4 }).refuses('not-this-step');
      story
        .when({ type: 'choose-remedy', step: 1, kind: 'least-stretch', reason: 'too much' })
        .refuses('decision-due');
      const kept = story.after({ type: 'accept', step: 1, reason: 'pressed already' });
      expect(kept.asks()).toBe(emptied.asks());
      expect(openRun(kept).deviations).toMatchObject([{ step: 1, what: 'over', found: '650' }]);
    });
  });

  describe('a gross reading', () => {
    // Invented: a second phase in the same bowl.
    const shared = plain
      .replace('      - hold: 10 min\n        for: Rest.\n', '')
      .concat(
        '  - phase: Second\n    vessel: {name: bowl}\n    steps:\n      - add: soda\n        amount: 300 g\n',
      )
      .replace('fill: 100 g', 'fill: 130 g');
    const story = given(shared, ...weighed, read(1, 'gross', 'display', '800'));
    const second = story.after({ type: 'turn-to', phase: 'Second' }, lot(3, 'S-1'));

    test('is put right with what stood on the scale when it was read', () => {
      expect(totalOf(story.after(amend(4, '810')), 1)).toBe('510');
      expect(totalOf(second.after(net(3, '300'), amend(4, '810')), 1)).toBe('510');
    });

    test('holds what it was read on top of', () => {
      second
        .after(read(3, 'gross', 'display', '1100'))
        .when(amend(4, '810'))
        .refuses('not-amendable');
    });
  });

  test('follows what was tipped into another vessel', () => {
    const tipped = given(
      plain
        .replace('      - hold', '      - tip: bowl\n        into: pan\n      - hold')
        .concat(
          '  - phase: Second\n    vessel: {name: pan, tare: 200 g}\n    steps:\n      - add: soda\n        amount: 100 g\n',
        )
        .replace('fill: 100 g', 'fill: 110 g'),
      ...weighed,
      net(1, '600'),
      lot(2, 'A-1'),
      net(2, '400'),
      { type: 'weigh-vessel', vessel: 'pan' },
      { type: 'tick', step: 3 },
    ).after(amend(4, '604'));
    expect([contentsOf(tipped, 'bowl'), contentsOf(tipped, 'pan')]).toEqual(['0', '1004']);
  });
});
