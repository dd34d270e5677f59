import { describe, expect, test } from 'vitest';
import type { AdditionText } from '../../../../src/core/result/record.ts';
import type { SizeText } from '../../../../src/core/run/event.ts';
import { readSheet } from '../../../../src/core/sheet/read-sheet.ts';
import { type PlanAgain, planAgain } from '../../../../src/workshop/verify/recompute/plan-again.ts';
import { scales } from '../../../helpers/record.ts';

/** An invented sheet of one phase in percentages; 10 · 98 g / (1 − 2 %) = 1000 g. */
const sheetOf = (
  lines: readonly string[],
  makes = '{piece: dome, count: 10, fill: 98 g, loss: 2 %}',
) => {
  const keys = lines.map((_line, n) => `  m${n}: {name: M${n}, lot: none, density: 0.5 g/mL}`);
  const steps = lines.map(
    (line, n) => `      - add: m${n}\n        ${line.replaceAll('; ', '\n        ')}`,
  );
  const share = lines.some(line => line.includes('%;') || /amount: (?:rest|\d+ %)/.test(line))
    ? '    share: 100 %\n'
    : '';
  const read = readSheet(
    `sheet: Invented\ncode: INV\nrevision: 1\nmakes: ${makes}\ntolerance: 1 %\nmaterials:\n${keys.join('\n')}\nphases:\n  - phase: Only\n${share}    vessel: {name: bowl, tare: 100 g, holds: 50 kg}\n    steps:\n${steps.join('\n')}\n`,
  );
  if (!read.ok) throw new Error(JSON.stringify(read.problems));
  return read.sheet;
};

const planned = (
  lines: readonly string[],
  size: SizeText = { by: 'sheet' },
  makes?: string,
): PlanAgain => planAgain(sheetOf(lines, makes), size, scales);

const additionOf = (lines: readonly string[], size?: SizeText, makes?: string): AdditionText =>
  planned(lines, size, makes).text.additions[0]!;

describe('sizes', () => {
  // sheet.md: 36 · 95 g / 0.98 = 171000/49 g.
  const makes = '{piece: dome, count: 36, fill: 95 g, loss: 2 %}';
  test.each<readonly [SizeText, string, number]>([
    [{ by: 'sheet' }, '171000/49', 36],
    [{ by: 'pieces', pieces: 18 }, '85500/49', 18],
    [{ by: 'factor', factor: '3/2' }, '256500/49', 54],
    // 2400 · 0.98 / 95 = 24.757…
    [{ by: 'mass', mass: '2400' }, '2400', 24],
  ])('%j', (size, batchMass, pieces) => {
    expect(planned(['amount: rest'], size, makes).text).toMatchObject({ batchMass, pieces });
  });

  test('an absolute sheet is what its lines add up to', () => {
    // 100 mL · 0.5 g/mL + 50 g, twice.
    const { text } = planned(['amount: 100 mL', 'amount: 50 g'], { by: 'factor', factor: '2' });
    expect(text).toMatchObject({ batchMass: '200', pieces: 20 });
    expect(text.additions.map(each => each.exact)).toEqual(['100', '100']);
  });
});

describe('windows', () => {
  test.each<readonly [string, string, string]>([
    // Of 600 g.
    ['amount: 60 %', '594', '606'],
    ['amount: 60 %; tolerance: 0.5 g', '599.5', '600.5'],
    ['amount: 60 %; tolerance: -2 % +1 %', '588', '606'],
    ['amount: 60 %; tolerance: -0 g +2 g', '600', '602'],
    ['amount: 60 %; tolerance: +2 g', '600', '602'],
    // A floor widens the sides that are narrower, never one that is nothing.
    ['amount: 60 %; tolerance: "0.1 %, at least 2 g"', '598', '602'],
    ['amount: 60 %; tolerance: "+0.1 %, at least 2 g"', '600', '602'],
    ['amount: 60 %; tolerance: "1 %, at least 2 g"', '594', '606'],
  ])('%s', (line, windowLow, windowHigh) => {
    expect(additionOf([line, 'amount: rest'])).toMatchObject({
      exact: '600',
      windowLow,
      windowHigh,
    });
  });
});

const of = (mass: string): string => additionOf(['amount: rest'], { by: 'mass', mass }).scale;

const tight = () =>
  additionOf(['amount: rest; tolerance: 0.001 g'], { by: 'mass', mass: '150.005' });

test('the finest scale that holds the greatest accepted mass is taken', () => {
  // high: 198 · 1.01 = 199.98; 198.1 · 1.01 = 200.081, which is 200.08 on fine: too much for it.
  expect([of('198'), of('198.1')]).toEqual(['fine', 'big']);
});

describe('divisions and scales', () => {
  test('target, low and high are multiples of the scale inside the exact window', () => {
    // 171000/49 · 62 % = 106020/49 = 2163.673 g; 1 % of it is 21.637 g.
    const makes = '{piece: dome, count: 36, fill: 95 g, loss: 2 %}';
    expect(additionOf(['amount: 62 %', 'amount: rest'], undefined, makes)).toMatchObject({
      exact: '106020/49',
      scale: 'big',
      target: '2163.7',
      low: '2142.1',
      high: '2185.3',
      weighings: 1,
    });
  });

  test('the target is the nearest multiple, ties to even', () => {
    // 1000.05 lies between 1000.0 and 1000.1: ten thousand is even.
    const size: SizeText = { by: 'mass', mass: '1000.05' };
    expect(additionOf(['amount: rest'], size).target).toBe('1000');
  });

  test('the target stays inside a one-sided window', () => {
    // 1000.04 and more: the nearest multiple, 1000.0, is outside.
    const size: SizeText = { by: 'mass', mass: '1000.04' };
    const addition = additionOf(['amount: rest; tolerance: +0.5 g'], size);
    expect(addition).toMatchObject({ target: '1000.1', low: '1000.1', high: '1000.5' });
  });
  test('a scale without a multiple in the window is passed over', () => {
    const addition = additionOf(['amount: rest; tolerance: 0.004 g'], {
      by: 'mass',
      mass: '150.01',
    });
    expect(addition).toMatchObject({
      scale: 'fine',
      target: '150.01',
      low: '150.01',
      high: '150.01',
    });
  });

  test('what no scale holds is weighed on the largest, in several weighings', () => {
    // 25 kg · 1.01 = 25 250 g: three times 10 kg.
    const addition = additionOf(['amount: rest'], { by: 'mass', mass: '25000' });
    expect(addition).toMatchObject({ scale: 'big', weighings: 3 });
  });

  test('a line that no scale can weigh stops the plan', () => {
    expect(tight).toThrow(RangeError);
  });
});
