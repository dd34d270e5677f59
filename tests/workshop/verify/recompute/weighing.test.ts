import { describe, expect, test } from 'vitest';
import { massFrom } from '../../../../src/workshop/verify/recompute/exact-text.ts';
import type { Line } from '../../../../src/workshop/verify/recompute/plan-again.ts';
import {
  judgedText,
  newPour,
  poursOf,
  readInto,
  type Weighing,
  weighingOf,
} from '../../../../src/workshop/verify/recompute/weighing.ts';
import { tolerance } from '../../../helpers/sheet.ts';

/** The 300 g line of correction.md's table: 297 to 303 g. */
const line: Line = {
  n: 2,
  step: 2,
  phase: 'Base',
  vessel: 'bowl',
  material: 'b',
  tolerance: tolerance('1%'),
  exact: massFrom('300'),
  low: massFrom('297'),
  high: massFrom('303'),
};

const empty = { name: 'bowl', tare: massFrom('812'), contents: massFrom('0') };
const read = (
  weighing: Weighing,
  change: Partial<Weighing>,
  shown: string,
  contents = '0',
): Weighing =>
  readInto({ ...weighing, ...change }, massFrom(shown), { ...empty, contents: massFrom(contents) });
const net = { way: 'net', part: 'display' } as const;

describe('verdicts, to the last digit', () => {
  // The edges belong to the window; one division of 0.1 g beyond does not.
  test.each<readonly [string, string]>([
    ['296.9', 'under'],
    ['297', 'in'],
    ['300', 'in'],
    ['302.9', 'in'],
    ['303', 'in'],
    ['303.1', 'over'],
    ['312', 'over'],
    ['315', 'over'],
  ])('%s g is %s', (shown, verdict) => {
    expect(judgedText(read(weighingOf(line), net, shown))).toEqual({
      net: shown,
      total: shown,
      verdict,
    });
  });
});

describe('ways of reading', () => {
  test('net: a later number replaces the one before', () => {
    const twice = read(read(weighingOf(line), net, '120'), net, '298.5');
    expect(judgedText(twice)).toEqual({ net: '298.5', total: '298.5', verdict: 'in' });
  });

  test('after a tare the pour adds', () => {
    const second = read(newPour(read(weighingOf(line), net, '120'), undefined), net, '180');
    expect(judgedText(second)).toEqual({ net: '180', total: '300', verdict: 'in' });
  });

  test('gross: vessel and what was in it are taken off', () => {
    // 1712.5 − (812 + 600)
    const first = read(weighingOf(line), { way: 'gross', part: 'display' }, '1712.5', '600');
    expect(judgedText(first)).toMatchObject({ net: '300.5' });
  });

  test('gross after an earlier pour: that is taken off too', () => {
    const first = read(weighingOf(line), net, '120');
    // 1712.5 − (812 + 600 + 120)
    const second = read(newPour(first, 'B'), { way: 'gross', part: 'display' }, '1712.5', '720');
    expect(judgedText(second)).toEqual({ net: '180.5', total: '300.5', verdict: 'in' });
  });

  test('in a cup: what sticks to it is taken off', () => {
    const full = read(weighingOf(line), { way: 'cup', part: 'display' }, '298');
    const tipped = read(full, { way: 'cup', part: 'residue' }, '1.5');
    expect(judgedText(full)).toMatchObject({ verdict: 'in' });
    expect(judgedText(tipped)).toEqual({ net: '296.5', total: '296.5', verdict: 'under' });
  });

  test('by difference: before less after', () => {
    const before = read(weighingOf(line), { way: 'difference', part: 'before' }, '1000.5');
    expect(judgedText(before)).toBeUndefined();
    const after = read(before, { way: 'difference', part: 'after' }, '700');
    expect(judgedText(after)).toMatchObject({ net: '300.5', verdict: 'in' });
  });
});

test('an empty pour is no pour', () => {
  const poured = newPour(read(newPour(newPour(weighingOf(line), 'A'), 'B'), net, '300'), 'C');
  expect(poursOf(poured).map(pour => pour.lot)).toEqual(['B']);
});
