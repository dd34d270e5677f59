/** The first row: which batch, how big, which step, who and when. */
import type { Question } from '../../core/dialogue/conversation.ts';
import { isEqual, one, ratioOf, subtract } from '../../core/quantity/quantity.ts';
import { showShare } from '../../core/quantity/show.ts';
import type { Run, RunFacts } from '../../core/run/state.ts';
import { formatClock, readInstant } from '../../core/time/instant.ts';
import { cellWidth, cutTo } from './cells.ts';
import type { Paper } from './paper.ts';
import { type Row, row, rowWidth, span, spread } from './row.ts';

const clockOf = ({ events }: RunFacts): string => {
  const at = readInstant(events.at(-1)?.at ?? '');
  return at === undefined ? '' : formatClock(at);
};

/** By how much the batch was made bigger since it was begun, the fullest wording first; none while it was not. */
const growthTexts = ({ plan, begunPlan }: RunFacts): readonly string[] => {
  const grown = ratioOf<'1'>(plan.size.factor, begunPlan.size.factor);
  if (isEqual(grown, one)) return [];
  const by = `+${showShare(subtract(grown, one), 2)}`;
  return [`batch ${by}, ${plan.size.pieces} pieces`, `batch ${by}`, by];
};

/** Batch, practice mark, size, step and time stand whole; the person's name gives way, then the sheet's. */
export const headerRow = (run: Run, question: Question, paper: Paper): Row => {
  if (run.phase === 'unbegun') return row('tarebook', 'strong');
  const mark: Row = run.practice ? [span('  '), span(' PRACTICE ', 'alarm')] : [];
  const start: Row = [span(run.batch, 'strong'), ...mark];
  const step = question.step === undefined ? '' : `step ${question.step} of ${run.steps.length}  `;
  const end = `  ${clockOf(run)}`;
  const spare = paper.columns - rowWidth(start) - 2 - step.length - end.length;
  const growths = growthTexts(run);
  const growth = growths.find(text => cellWidth(text) + 2 <= spare) ?? growths.at(-1);
  const fixed: Row =
    growth === undefined ? start : [...start, span('  '), span(paper.clean(growth), 'strong')];
  const room = paper.columns - rowWidth(fixed) - 2 - step.length - end.length;
  const person = cutTo(paper.clean(run.person), Math.max(0, room));
  return spread(
    [...fixed, span(paper.clean(`  ${run.sheet.name}`))],
    [span(`  ${step}${person}${end}`)],
    paper.columns,
  );
};
