import type { Problem } from './problem.ts';

/** Problems in the order of the file. */
export const inOrder = (problems: readonly Problem[]): readonly Problem[] =>
  problems.toSorted((a, b) => a.line - b.line || a.column - b.column);
