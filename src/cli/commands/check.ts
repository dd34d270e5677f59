import { harmlessLines } from '../../core/dialogue/harmless.ts';
import { readSheet } from '../../core/sheet/read-sheet.ts';
import { exitStatus } from '../exit-status.ts';
import { readSheetFile } from '../read-sheet-file.ts';
import { findingOf, showProblem, statusOf } from '../show-problems.ts';
import { Stop } from '../stop.ts';

interface Checked {
  readonly path: string;
  readonly status: number;
  readonly lines: readonly string[];
  readonly findings: readonly ReturnType<typeof findingOf>[];
}

const checkOne = (path: string): Checked => {
  try {
    const read = readSheet(readSheetFile(path));
    const { problems } = read;
    const counts =
      problems.length === 0
        ? 'nothing to mend'
        : problems.length === 1
          ? 'one finding'
          : `${problems.length} findings`;
    const headline = read.ok
      ? `${path}: ${read.sheet.name}, revision ${read.sheet.revision}: ${counts}.`
      : `${path}: ${counts}.`;
    return {
      path,
      status: statusOf(problems),
      lines: [...problems.map(each => showProblem(path, each)), headline],
      findings: problems.map(findingOf),
    };
  } catch (error) {
    if (!(error instanceof Stop)) throw error;
    return { path, status: error.status, lines: [error.message], findings: [] };
  }
};

/** Checks each sheet alone, at its nominal size; the worst of their statuses counts. */
export const check = (
  paths: readonly string[],
  { json = false }: { readonly json?: boolean },
): number => {
  const checked = paths.map(checkOne);
  const text = json
    ? JSON.stringify(
        checked.map(({ path, status, findings }) => ({ path, status, findings })),
        null,
        2,
      )
    : checked.flatMap(each => each.lines).join('\n');
  process.stdout.write(`${harmlessLines(text)}\n`);
  return Math.max(exitStatus.good, ...checked.map(each => each.status));
};
