import { buildSheet } from './build-sheet.ts';
import { checkLimits, checkMakes } from './check-formula.ts';
import { checkMaterials } from './check-materials.ts';
import { checkNames } from './check-names.ts';
import { checkPhases } from './check-phases.ts';
import { checkBasis, checkShares } from './check-shares.ts';
import { checkSteps } from './check-steps.ts';
import { checkVessels } from './check-vessels.ts';
import { formulaOf } from './formula.ts';
import { inOrder } from './in-order.ts';
import { hasErrors, type Problem, problem } from './problem.ts';
import { readYaml } from './read-yaml.ts';
import type { Report } from './reader.ts';
import { type Amounts, resolveAmounts } from './resolve-amounts.ts';
import type { Sheet } from './sheet.ts';
import { type DraftSheet, sheetReader } from './sheet-reader.ts';
import { isWhole } from './walk.ts';

/** A sheet with its warnings, or all that is wrong with it, in the order of the file. */
export type SheetReading =
  | { readonly ok: true; readonly sheet: Sheet; readonly problems: readonly Problem[] }
  | { readonly ok: false; readonly problems: readonly Problem[] };

interface Checked {
  readonly basis: Sheet['basis'] | undefined;
  readonly amounts: Amounts;
}

const checkDraft = (draft: DraftSheet, report: Report): Checked => {
  checkNames(draft, report);
  checkMaterials(draft, report);
  checkPhases(draft, report);
  checkVessels(draft, report);
  checkSteps(draft, report);
  const basis = checkBasis(draft, report);
  const amounts = resolveAmounts(draft, report);
  const addsUp = basis === 'absolute' || (basis === 'percentages' && checkShares(draft, report));
  const formula = addsUp && isWhole(draft) ? formulaOf(draft, amounts) : undefined;
  if (formula !== undefined) checkLimits(draft, formula, report);
  if (formula !== undefined && basis === 'absolute') checkMakes(draft, formula, report);
  return { basis, amounts };
};

/** Reads a batch sheet: the whole grammar and every rule on the sheet alone, at its own size. */
export const readSheet = (text: string): SheetReading => {
  const problems: Problem[] = [];
  const report: Report = found => problems.push(found);
  const tree = readYaml(text);
  problems.push(...tree.problems);
  if (tree.node === undefined) return { ok: false, problems: orEmpty(inOrder(problems)) };
  const draft = sheetReader.read(tree.node, report);
  const checked = draft && checkDraft(draft, report);
  if (draft === undefined || checked?.basis === undefined || hasErrors(problems)) {
    return { ok: false, problems: inOrder(problems) };
  }
  const sheet = buildSheet(draft, checked.basis, checked.amounts);
  return { ok: true, sheet, problems: inOrder(problems) };
};

const orEmpty = (problems: readonly Problem[]): readonly Problem[] =>
  problems.length > 0
    ? problems
    : [
        problem(
          'missing-key',
          { line: 1, column: 1 },
          'The file is empty.',
          'Begin with sheet: and a name; the demo sheets show the rest.',
        ),
      ];
