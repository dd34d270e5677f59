import * as fc from 'fast-check';
import { expect, test } from 'vitest';
import { verdictOf } from '../../../src/core/plan/window.ts';
import { gaugeRows } from '../../../src/ui/view/gauge.ts';
import { textOf } from '../../../src/ui/view/row.ts';
import { cases, seed } from '../../helpers/cases.ts';
import { mass } from '../../helpers/sheet.ts';

const gauge = (low: string, high: string, target: string, reading?: string, cells = 60) =>
  gaugeRows(
    {
      window: { low: mass(low), high: mass(high) },
      target: mass(target),
      difference: '+0.1 g',
      ...(reading === undefined ? {} : { reading: mass(reading) }),
    },
    cells,
  ).map(textOf);

test('marks nothing before a reading', () => {
  const [axis, below] = gauge('99', '101', '100');
  expect(axis).toMatch(/^under -+\[=+\|=+\]-+ over$/);
  expect(below).toContain('no reading yet');
});

test('draws a window that has only one side', () => {
  expect(gauge('100', '102', '100')[0]).toMatch(/^under -+\[=+\]-+ over$/);
});

/** Columns of the low edge, the mark and the high edge. */
const place = (reading: string): readonly [number, number, number] => {
  const [axis = '', below = ''] = gauge('9900', '10100', '10000', reading);
  return [axis.indexOf('['), below.indexOf('^'), axis.indexOf(']')];
};

test('puts the mark outside the window one division beyond its edge, inside on it', () => {
  const [low, onLow] = place('9900');
  expect(onLow).toBe(low);
  expect(place('9899.9')[1]).toBe(low - 1);
  const [, onHigh, high] = place('10100');
  expect(onHigh).toBe(high);
  expect(place('10100.1')[1]).toBe(high + 1);
});

test('tells the verdict by word and by place alike, and keeps its width', () => {
  const tenths = fc.integer({ min: 1, max: 40_000 });
  fc.assert(
    fc.property(tenths, tenths, tenths, fc.integer({ min: 40, max: 120 }), (a, b, at, cells) => {
      const [low, high] = [Math.min(a, b), Math.max(a, b)].map(each => `${each}/10`);
      const window = { low: mass(low ?? '0'), high: mass(high ?? '0') };
      const rows = gauge(low ?? '', high ?? '', low ?? '', `${at}/10`, cells);
      const [axis = '', below = ''] = rows;
      const mark = below.indexOf('^');
      const verdict = verdictOf(mass(`${at}/10`), window);
      const words = { under: 'UNDER', in: 'in window', over: 'OVER' };
      expect(below).toContain(words[verdict]);
      expect(mark < axis.indexOf('[')).toBe(verdict === 'under');
      if (axis.includes(']')) expect(mark > axis.indexOf(']')).toBe(verdict === 'over');
      for (const each of rows) expect(each.length).toBeLessThanOrEqual(cells);
    }),
    { numRuns: cases(300), seed },
  );
});
