/** A reading that is over, or that looks misread: what it was, what it should be, and every way out. */
import type { Command, Question } from '../../core/dialogue/conversation.ts';
import { showOn, windowText } from '../../core/dialogue/explain.ts';
import { targetOf } from '../../core/plan/window.ts';
import { vesselNow } from '../../core/run/focus.ts';
import { massFrom } from '../../core/run/mass-text.ts';
import type { RunFacts } from '../../core/run/state.ts';
import { cellWidth, fillTo, wrapTo } from './cells.ts';
import { type Fact, factFlow } from './fact-flow.ts';
import type { Paper } from './paper.ts';
import { atMostTold, blank, paragraph, type Row, span } from './row.ts';
import { figureRows, materialRow, targetRows, type Weighing, windowRows } from './weighing.ts';

/** An addition whose last reading wants a decision. */
export interface Trouble {
  readonly run: RunFacts;
  readonly weighing: Weighing;
  readonly question: Question;
}

const answers = new Set(['yes', 'no']);

/** The ways out of a trouble; none where the question is about none. */
export const waysOut = ({ kind, choices, commands }: Question): readonly Command[] =>
  choices ?? (kind === 'slip' ? commands.filter(({ word }) => answers.has(word)) : []);

const factRows = ({ run, weighing }: Trouble, paper: Paper): readonly Row[] => {
  const { addition, state } = weighing;
  const { lastReading } = state;
  const facts: readonly Fact[] = [
    [
      'read',
      lastReading && `${showOn(addition, massFrom(lastReading.reading.mass))} ${lastReading.way}`,
    ],
    ['in so far', showOn(addition, state.total)],
    ['window', windowText(addition)],
    ['target', showOn(addition, targetOf(addition))],
    [
      `in ${vesselNow(run, addition.vessel)}`,
      showOn(addition, run.vessels.get(vesselNow(run, addition.vessel))?.contents ?? state.total),
    ],
  ];
  return factFlow(facts, paper);
};

// A slip is looked up on the display: what was read stands large. An over-pour is a matter of how much.
const largeHead = ({ weighing, question }: Trouble, paper: Paper): readonly Row[] => {
  const { addition, state } = weighing;
  const { lastReading } = state;
  return question.kind === 'slip' && lastReading !== undefined
    ? figureRows('read', showOn(addition, massFrom(lastReading.reading.mass)), 'strong', paper)
    : targetRows(weighing, true, paper);
};

const headRows = (trouble: Trouble, large: readonly Row[], paper: Paper): readonly Row[] => [
  materialRow(trouble.run, trouble.weighing, paper),
  ...large,
  ...factRows(trouble, paper),
  ...windowRows(trouble.weighing, paper),
];

/** Lines of at most so many cells, at most `count` of them; where words are left out, a mark says so. */
const someLines = (text: string, cells: number, count: number): readonly string[] => {
  const whole = wrapTo(text, cells);
  if (whole.length <= count) return whole;
  const kept = wrapTo(text, cells - 2).slice(0, count);
  return kept.map((line, at) => (at === count - 1 ? `${line} …` : line));
};

/** How many lines each choice gets: one, and what is left over to the first ones. */
const shareOut = (wanted: readonly number[], room: number): readonly number[] => {
  let left = room - wanted.length;
  return wanted.map(lines => {
    const more = Math.max(0, Math.min(left, lines - 1));
    left -= more;
    return 1 + more;
  });
};

/** Each way out with its word in front, in at most `room` rows but never less than one each. */
const wayRows = (ways: readonly Command[], room: number, paper: Paper): readonly Row[] => {
  const wordCells = Math.max(...ways.map(({ word }) => cellWidth(word))) + 2;
  const cells = paper.columns - wordCells;
  const texts = ways.map(({ does }) => paper.clean(does));
  const counts = shareOut(
    texts.map(text => wrapTo(text, cells).length),
    room,
  );
  return ways.flatMap(({ word }, way) =>
    someLines(texts[way] ?? '', cells, counts[way] ?? 1).map((line, at) => [
      span(fillTo(at === 0 ? paper.clean(word) : '', wordCells), 'accent'),
      span(line, 'strong'),
    ]),
  );
};

const allOf = Number.POSITIVE_INFINITY;

/** The fewest rows in which a trouble can be shown. */
export const leastTroubleRows = (trouble: Trouble, paper: Paper): number =>
  headRows(trouble, [], paper).length + waysOut(trouble.question).length;

/**
 * The trouble in at most `room` rows. The large figures give way first, then the reasons why other ways
 * are none, then the ends of long choices; never the reading, the window, the total or a choice.
 */
export const troubleRows = (
  trouble: Trouble,
  room: number,
  mayBeLarge: boolean,
  paper: Paper,
): readonly Row[] => {
  const ways = waysOut(trouble.question);
  const none = (trouble.question.impossible ?? []).flatMap(text =>
    paragraph(paper.clean(text), paper.columns),
  );
  const wanted = 1 + wayRows(ways, allOf, paper).length + none.length;
  const large = headRows(trouble, largeHead(trouble, paper), paper);
  const isLarge = mayBeLarge && large.length + wanted <= room;
  const head = isLarge ? large : headRows(trouble, [], paper);
  const left = room - head.length;
  const gap = left >= wanted ? [blank] : [];
  // One row at least says that there are reasons.
  const rows = wayRows(ways, left - Math.min(none.length, 1), paper);
  return [...head, ...gap, ...rows, ...atMostTold(none, left - gap.length - rows.length)];
};
