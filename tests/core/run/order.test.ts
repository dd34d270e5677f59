import { describe, expect, test } from 'vitest';
import { stepInHand } from '../../../src/core/run/focus.ts';
import type { Intent } from '../../../src/core/run/intent.ts';
import {
  at,
  benchSheet,
  lot,
  net,
  tick,
  toClose,
  toSalt,
  toTally,
  vessel,
} from '../../helpers/bench-sheet.ts';
import { closedRun, given, openRun, type Story } from '../../helpers/given.ts';

const inHand = (story: Story): number | undefined => stepInHand(openRun(story))?.n;
const later = (step: number): Intent => ({ type: 'put-later', step });
const turn = (phase: string): Intent => ({ type: 'turn-to', phase });
const unwitnessed: Intent = { type: 'go-unwitnessed', step: at.oil, reason: 'alone today' };

describe('a line that is put later', () => {
  const salt = given(benchSheet, ...toSalt).after(later(at.salt));

  test('makes place for the next one', () => {
    expect(inHand(salt)).toBe(at.clay);
  });

  test('comes back before the next step that is no addition', () => {
    const story = salt.after(
      lot(at.clay, 'C-1'),
      net(at.clay, '300'),
      lot(at.oil, 'O-1'),
      net(at.oil, '20'),
      unwitnessed,
    );
    expect(inHand(story)).toBe(at.salt);
    story.when(later(at.salt)).refuses('wrong-kind');
    story.when(tick(at.stir)).refuses('not-this-step');
    expect(inHand(story.after(net(at.salt, '600')))).toBe(at.stir);
  });

  test('keeps the lot that was named for it', () => {
    expect(openRun(salt).lots.get('salt')).toBe('S-1');
  });

  test('comes back in the order of the sheet when all were put later', () => {
    const story = salt.after(later(at.clay), later(at.oil));
    expect(inHand(story)).toBe(at.salt);
    expect(inHand(story.after(net(at.salt, '600')))).toBe(at.clay);
  });

  test('is the only addition left: there is nothing to weigh first', () => {
    const wax = given(benchSheet, turn('Top'), vessel('jug'));
    wax.when(later(at.wax)).refuses('wrong-kind');
  });
});

describe('phases', () => {
  const begun = given(benchSheet);

  test('interleave: each goes on where it was left', () => {
    const top = begun.after(tick(at.wear), turn('Top'));
    expect(inHand(top)).toBe(at.wax);
    const base = top.after(vessel('jug'), turn('Base'));
    expect(inHand(base)).toBe(at.salt);
    expect(inHand(base.after(turn('Top')))).toBe(at.wax);
  });

  test('go back to the sheet’s order when the one turned to is done', () => {
    const story = begun.after(turn('Top'), vessel('jug'), lot(at.wax, 'W-1'), net(at.wax, '80'));
    expect(inHand(story)).toBe(at.wear);
  });

  test('wait for the phases named after them', () => {
    const after = benchSheet.replace('  - phase: Top\n', '  - phase: Top\n    after: Base\n');
    given(after).when(turn('Top')).refuses('no-such-phase');
  });

  test('all come before the finish', () => {
    begun.when(turn('finish')).refuses('no-such-phase');
    expect(inHand(given(benchSheet, ...toTally))).toBe(at.tally);
  });

  test('whose names differ only in their case are told apart', () => {
    const twins = benchSheet.replace('- phase: Top', '- phase: base');
    expect(inHand(given(twins, turn('base')))).toBe(at.wax);
    expect(inHand(given(twins, turn('base'), turn('Base')))).toBe(at.wear);
    expect(inHand(given(twins, turn('BASE')))).toBe(at.wear);
  });
});

describe('a pause', () => {
  const paused = given(benchSheet).after({ type: 'pause', reason: 'lunch' });

  test('asks to be ended, and goes on at the very step', () => {
    expect(paused.asks()).toBe('resume');
    expect(inHand(paused.after({ type: 'resume' }))).toBe(at.wear);
  });

  test('leaves room for a note, for another person and for scrapping', () => {
    const story = paused.after({ type: 'note', text: 'phone' }, { type: 'hand-over', to: 'Bea' });
    expect(openRun(story)).toMatchObject({ isPaused: true, person: 'Bea' });
    expect(closedRun(story.after({ type: 'scrap', reason: 'bowl fell' })).outcome).toBe('rejected');
  });
});

describe('handing over', () => {
  test('puts the next events in the other person’s name', () => {
    const story = given(benchSheet, { type: 'hand-over', to: 'Bea' }, tick(at.wear));
    expect(openRun(story)).toMatchObject({ person: 'Bea', begunBy: 'Ana' });
    expect(openRun(story).events.map(each => each.by)).toEqual(['Ana', 'Ana', 'Bea']);
  });
});

describe('the end', () => {
  test('is asked for when every step is done', () => {
    const story = given(benchSheet, ...toClose);
    expect(story.asks()).toBe('close');
    const run = closedRun(story.after({ type: 'close' }));
    expect(run).toMatchObject({ outcome: 'made' });
    expect(run.closedAt).toEqual(story.now);
  });

  test('keeps the reason of a scrapped batch', () => {
    const run = closedRun(given(benchSheet, { type: 'scrap', reason: 'bowl fell' }));
    expect(run).toMatchObject({ outcome: 'rejected', reason: 'bowl fell' });
  });
});

describe('vessels', () => {
  const tipping = benchSheet.replace(
    '      - add: wax\n        amount: 80 g\n',
    '      - add: wax\n        amount: 80 g\n      - tip: jug\n        into: bowl\n',
  );

  test('tipping moves all that is in one into another', () => {
    const story = given(
      tipping.replace('        empties: bowl\n', ''),
      ...toSalt,
      net(at.salt, '600'),
      turn('Top'),
      vessel('jug'),
      lot(at.wax, 'W-1'),
      net(at.wax, '80'),
      tick(at.wax + 1),
    );
    const { vessels } = openRun(story);
    expect(vessels.get('jug')?.contents.num).toBe(0n);
    expect(vessels.get('bowl')?.contents.num).toBe(680n);
    story.when({ type: 'weigh-vessel', vessel: 'bowl' }).refuses('vessel-known');
  });

  test('a vessel is not emptied while an earlier addition of another phase is open', () => {
    const shared = benchSheet
      .replace('        empties: bowl\n', '')
      .replace('vessel: {name: jug, tare: 200 g}', 'vessel: {name: bowl}')
      .replace('amount: 80 g\n', 'amount: 80 g\n      - do: Scrape out.\n        empties: bowl\n');
    const story = given(shared, tick(at.wear), vessel('bowl'), turn('Top')).after(
      lot(at.wax, 'W-1'),
      net(at.wax, '80'),
    );
    expect(inHand(story)).toBe(at.wax + 1);
    story.when(tick(at.wax + 1)).refuses('not-yet');
  });

  test('a vessel that something is tipped into is weighed first', () => {
    const story = given(
      tipping.replace('        empties: bowl\n', ''),
      turn('Top'),
      vessel('jug'),
      lot(at.wax, 'W-1'),
      net(at.wax, '80'),
    );
    expect(story.asks()).toBe('vessel');
    expect(story.after(vessel('bowl')).asks()).toBe('tick');
  });

  test('emptying closes a vessel', () => {
    const { vessels } = openRun(given(benchSheet, ...toTally));
    expect(vessels.get('bowl')).toMatchObject({ isOpen: false, contents: { num: 0n } });
    expect(vessels.get('jug')).toMatchObject({ isOpen: true, contents: { num: 80n } });
  });

  test('without a tare on the sheet a vessel must be weighed', () => {
    const bare = benchSheet.replace('{name: jug, tare: 200 g}', '{name: jug}');
    given(bare, turn('Top')).when(vessel('jug')).refuses('bad-reading');
    expect(given(bare, turn('Top'), vessel('jug', '212.5')).asks()).toBe('lot');
  });
});
