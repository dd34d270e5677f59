import { hasErrors, type Problem } from '../core/sheet/problem.ts';
import { exitStatus } from './exit-status.ts';

/** `sheet.yaml:12:5 error percent-sum: what is wrong` and below it the mend. */
export const showProblem = (
  path: string,
  { line, column, severity, code, message, mend }: Problem,
): string => `${path}:${line}:${column} ${severity} ${code}: ${message}\n    ${mend}`;

export const statusOf = (problems: readonly Problem[]): number =>
  hasErrors(problems) ? exitStatus.doesNotHold : exitStatus.good;

/** A finding as `--json` prints it. */
export const findingOf = ({ code, severity, message, mend, line, column }: Problem) => ({
  code,
  severity,
  message,
  mend,
  line,
  column,
});
