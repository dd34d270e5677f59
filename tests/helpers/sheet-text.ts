import type { Problem } from '../../src/core/sheet/problem.ts';
import { readSheet } from '../../src/core/sheet/read-sheet.ts';
import type { AddStep, AdjustStep, HoldStep, Sheet } from '../../src/core/sheet/sheet.ts';

/** The text of a small invented sheet, absolute; any line of it may be put in another's place. */
export const sheetText = (...changes: readonly (readonly [string, string])[]): string =>
  changes.reduce(
    (text, [old, now]) => {
      if (!text.includes(old)) throw new Error(`not in the sheet: ${old}`);
      return text.replace(old, () => now);
    },
    `sheet: Plain powder
code: PLN
revision: 1
makes: {piece: bag, count: 10, fill: 100 g}
tolerance: 1 %
materials:
  soda: {name: Soda}
  acid: {name: Acid}
phases:
  - phase: Base
    vessel: {name: bowl}
    steps:
      - add: soda
        amount: 600 g
      - add: acid
        amount: 400 g
      - hold: 10 min
        for: Rest.
`,
  );

/** The sheet that a text holds; throws where it has errors. */
export const sheetOfText = (text: string): Sheet => {
  const reading = readSheet(text);
  if (!reading.ok) throw new Error(JSON.stringify(reading.problems));
  return reading.sheet;
};

const found = <T>(step: T | undefined): T => {
  if (step === undefined) throw new Error('no such step');
  return step;
};

const steps = (sheet: Sheet) => sheet.phases.flatMap(phase => phase.steps);

export const firstAddition = (sheet: Sheet): AddStep =>
  found(steps(sheet).find(step => step.kind === 'add'));
export const firstAdjust = (sheet: Sheet): AdjustStep =>
  found(steps(sheet).find(step => step.kind === 'adjust'));
export const firstHold = (sheet: Sheet): HoldStep =>
  found(steps(sheet).find(step => step.kind === 'hold'));

/** `code line:column` of each problem. */
export const told = (problems: readonly Problem[]): readonly string[] =>
  problems.map(each => `${each.code} ${each.line}:${each.column}`);
