import { describe, expect, test } from 'vitest';
import type { Intent } from '../../../src/core/run/intent.ts';
import { at, benchSheet, tick, toPress, toRest, toRunningRest } from '../../helpers/bench-sheet.ts';
import { given, openRun } from '../../helpers/given.ts';

const reason = 'set already';
const end: Intent = { type: 'end-hold', step: at.rest };

describe('a hold of 10 to 30 minutes', () => {
  const running = given(benchSheet, ...toRunningRest);

  test.each([
    [600, 'kept'],
    [1800, 'kept'],
  ])('is kept when it ends after exactly %i seconds', (seconds, verdict) => {
    running.wait(seconds).when(end).gives({ type: 'hold-ended', step: at.rest, verdict: 'kept' });
    expect(verdict).toBe('kept');
  });

  test.each([
    [599, 'early', 'hold-early'],
    [1801, 'late', 'hold-late'],
  ] as const)('that ends after %i seconds is %s, with a reason', (seconds, verdict, what) => {
    const story = running
      .wait(seconds)
      .when({ ...end, reason })
      .gives({ type: 'hold-ended', step: at.rest, verdict, reason });
    expect(openRun(story).deviations.at(-1)).toMatchObject({
      what,
      found: String(seconds),
      least: '600',
      most: '1800',
    });
  });

  test('records no reason that nothing asked for', () => {
    running
      .wait(600)
      .when({ ...end, reason })
      .gives({ type: 'hold-ended', step: at.rest, verdict: 'kept' });
  });

  test('runs on while another phase is worked at', () => {
    const story = running.after({ type: 'turn-to', phase: 'Top' });
    expect(story.asks()).toBe('vessel');
    expect(story.after({ type: 'turn-to', phase: 'Base' }).asks()).toBe('hold-running');
  });

  test('runs on through a pause', () => {
    const story = running
      .after({ type: 'pause', reason: 'lunch' })
      .wait(700)
      .after({ type: 'resume' });
    expect(openRun(story.after(end)).steps[at.rest - 1]?.status).toBe('done');
  });

  test('is early when the clock was set back', () => {
    running.when(end, { at: '2027-03-04T08:00:00.000+01:00' }).refuses('hold-not-kept');
  });

  test('counts by the instant, whatever the offset of the local clock', () => {
    // 28 March 2027, 02:00: clocks go from +01:00 to +02:00.
    const story = given(benchSheet, ...toRest)
      .when({ type: 'start-hold', step: at.rest }, { at: '2027-03-28T01:55:00.000+01:00' })
      .gives({ type: 'hold-started', step: at.rest });
    story.when(end, { at: '2027-03-28T03:04:59.999+02:00' }).refuses('hold-not-kept');
    story
      .when(end, { at: '2027-03-28T03:05:00.000+02:00' })
      .gives({ type: 'hold-ended', step: at.rest, verdict: 'kept' });
  });
});

describe('a step that is due 15 minutes after another', () => {
  // The adjustment was finished a minute before the clock of the story.
  const press = given(benchSheet, ...toPress);

  test('is in time on the very second, and overdue a second later', () => {
    expect(press.wait(900).asks()).toBe('tick');
    expect(press.wait(901).asks()).toBe('overdue');
  });

  test('goes on late with a reason, once', () => {
    const story = press.wait(1000).after({ type: 'accept', step: at.press, reason });
    expect(story.asks()).toBe('tick');
    expect(openRun(story).deviations.at(-1)).toMatchObject({
      what: 'overdue',
      found: '1000',
      most: '900',
    });
    expect(openRun(story.wait(9999).after(tick(at.press))).steps[at.press - 1]?.status).toBe(
      'done',
    );
  });

  test('is not overdue once it is done', () => {
    const story = press.after(tick(at.press)).wait(99_999);
    expect(story.asks()).toBe('hold');
  });
});

describe('a clock that goes backwards', () => {
  test('is marked and breaks nothing', () => {
    const story = given(benchSheet)
      .when({ type: 'note', text: 'clock set back' }, { at: '2027-03-04T08:00:00.000+01:00' })
      .gives({ type: 'noted', text: 'clock set back', step: 1 })
      .when(tick(at.wear), { at: '2027-03-04T08:00:00.000+01:00' })
      .gives({ type: 'ticked', step: at.wear });
    expect(openRun(story).clockWentBack).toEqual([2]);
    expect(openRun(story).steps[0]?.status).toBe('done');
  });

  test('is not what another offset at a later instant is', () => {
    const story = given(benchSheet)
      .when({ type: 'note', text: 'on the road' }, { at: '2027-03-04T08:30:00.000+00:00' })
      .gives({ type: 'noted', text: 'on the road', step: 1 });
    expect(openRun(story).clockWentBack).toEqual([]);
  });
});
