import type { Scale, SizeWish } from '../../src/core/plan/plan.ts';
import { planBatch } from '../../src/core/plan/plan-batch.ts';
import type { Problem } from '../../src/core/sheet/problem.ts';
import type { Sheet } from '../../src/core/sheet/sheet.ts';
import { adding, mass, phaseOf, sheetOf } from './sheet.ts';

export const scaleOf = (name: string, capacity: string, readability: string): Scale => ({
  name,
  capacity: mass(capacity),
  readability: mass(readability),
  unit: 'g',
});

// Invented.
export const big = scaleOf('big', '10000', '0.1');
export const fine = scaleOf('fine', '200', '0.01');

export const asWritten: SizeWish = { by: 'sheet' };

export const plan = (
  sheet: Sheet,
  wish: SizeWish = asWritten,
  scales: readonly Scale[] = [big, fine],
) => planBatch(sheet, wish, scales);

export const codes = (problems: readonly Problem[]): readonly string[] =>
  problems.map(each => each.code);

/** An invented absolute sheet of one bowl: materials a, b, c… of so many grams. */
export const oneBowl = (amounts: readonly string[], more: Partial<Sheet> = {}): Sheet =>
  sheetOf(
    [
      phaseOf(
        'Bowl',
        amounts.map((amount, at) => adding('abcdef'.charAt(at), `${amount}g`)),
      ),
    ],
    { basis: 'absolute', ...more },
  );
