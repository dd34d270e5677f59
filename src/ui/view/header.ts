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

/** A name that is cut to less than this says nothing. */
const leastName = 6;

/** Batch, practice mark, size, step and time stand whole; the person's name gives way, then the sheet's. */
export const headerRow = (run: Run, question: Question, paper: Paper): Row => {
  if (run.phase === 'unbegun') return row('tarebook', 'strong');
  const mark: Row = run.practice ? [span('  '), span(' PRACTICE ', 'alarm')] : [];
  const start: Row = [span(run.batch, 'strong'), ...mark];
  const step = question.step === undefined ? '' : `step ${question.step} of ${run.steps.length}  `;
  const end = `  ${clockOf(run)}`;
  const roomAfter = (left: Row): number =>
    paper.columns - rowWidth(left) - 2 - cellWidth(step + end);
  const growths = growthTexts(run).map(text => [
    ...start,
    span(`  ${paper.clean(text)}`, 'strong'),
  ]);
  const left = growths.find(each => roomAfter(each) >= 0) ?? growths.at(-1) ?? start;
  const person = cutTo(paper.clean(run.person), Math.max(0, roomAfter(left)));
  const hasName = roomAfter(left) - cellWidth(person) >= leastName;
  return spread(
    hasName ? [...left, span(paper.clean(`  ${run.sheet.name}`))] : left,
    [span(`  ${step}${person}${end}`)],
    paper.columns,
  );
};
