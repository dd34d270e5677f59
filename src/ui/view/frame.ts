/** The whole screen as rows: what stands where, and what gives way when there is little room. */
import type { Question, Saying } from '../../core/dialogue/conversation.ts';
import { additionInHand } from '../../core/run/focus.ts';
import type { Run, RunFacts } from '../../core/run/state.ts';
import { formatClock, readInstant } from '../../core/time/instant.ts';
import { askingRows } from './asking.ts';
import { cutTo } from './cells.ts';
import { onPaper, type Paper } from './paper.ts';
import { blank, paragraph, type Row, row, rowWidth, sideBySide, span, spread } from './row.ts';
import { listRows } from './steps.ts';
import { factRows, materialRow, targetRows, type Weighing, windowRows } from './weighing.ts';

/** What the screen knows beyond the run. */
export interface Shown {
  readonly run: Run;
  readonly question: Question;
  readonly said: readonly Saying[];
  /** What the screen itself did with something typed. */
  readonly notices: readonly string[];
}

/** The rows above the field and the one below it. */
export interface Frame {
  readonly above: readonly Row[];
  readonly below: readonly Row[];
}

export const leastColumns = 60;
export const leastRows = 20;
const largeColumns = 72;
const largeRows = 22;
const airyRows = 28;
const wideColumns = 120;
const listColumns = 56;

const clockOf = ({ events }: RunFacts): string => {
  const at = readInstant(events.at(-1)?.at ?? '');
  return at === undefined ? '' : formatClock(at);
};

/** Batch, practice mark, step and time stand whole; the person's name gives way, then the sheet's. */
const headerRow = (run: Run, question: Question, paper: Paper): Row => {
  if (run.phase === 'unbegun') return row('tarebook', 'strong');
  const mark: Row = run.practice ? [span('  '), span(' PRACTICE ', 'alarm')] : [];
  const fixed: Row = [span(run.batch, 'strong'), ...mark];
  const step = question.step === undefined ? '' : `step ${question.step} of ${run.steps.length}  `;
  const end = `  ${clockOf(run)}`;
  const room = paper.columns - rowWidth(fixed) - 2 - step.length - end.length;
  const person = cutTo(paper.clean(run.person), Math.max(0, room));
  return spread(
    [...fixed, span(paper.clean(`  ${run.sheet.name}`))],
    [span(`  ${step}${person}${end}`)],
    paper.columns,
  );
};

/** The addition that a question is about, when it is about one whose weighing shows. */
export const weighingOf = (run: Run, question: Question): Weighing | undefined => {
  if (run.phase === 'unbegun' || question.step === undefined) return undefined;
  if (question.kind === 'vessel' || question.kind === 'vessel-far-off') return undefined;
  return additionInHand(run, question.step);
};

const weighingRows = (
  run: RunFacts,
  weighing: Weighing,
  question: Question,
  isLarge: boolean,
  paper: Paper,
): readonly Row[] => [
  materialRow(run, weighing, paper),
  ...targetRows(weighing, isLarge, paper),
  ...factRows(run, weighing, question, paper),
  ...windowRows(weighing, paper),
];

const marks: Record<Saying['tone'], string> = { good: '', plain: '', mend: '? ', stop: '! ' };

const sayingRows = ({ tone, text }: Saying, paper: Paper): readonly Row[] =>
  text
    .split('\n')
    .flatMap(line =>
      paragraph(
        marks[tone] + paper.clean(line),
        paper.columns,
        tone === 'stop' ? 'alarm' : tone === 'plain' ? 'plain' : 'strong',
      ),
    );

const saidRows = ({ notices, said }: Shown, paper: Paper): readonly Row[] => [
  ...notices.flatMap(text => sayingRows({ tone: 'stop', text }, paper)),
  ...said.flatMap(saying => sayingRows(saying, paper)),
];

const askRows = ({ question }: Shown, paper: Paper): readonly Row[] =>
  question.ask.split('\n').flatMap(line => paragraph(paper.clean(line), paper.columns, 'strong'));

/** The way to help first, so that it is never cut off; then Enter, leaving, and the other words that work now. */
const commandsRow = ({ enter, commands }: Question, paper: Paper): Row => {
  const others = commands.map(each => each.word).filter(word => word !== 'help');
  const words = others.toSorted((a, b) => Number(b === 'leave') - Number(a === 'leave'));
  const all = [...(enter === undefined ? [] : [`Enter: ${enter}`]), ...words].map(paper.clean);
  let line: Row = [span('help', 'accent')];
  for (const word of all) {
    const longer = [...line, span(`   ${word}`)];
    if (rowWidth(longer) > paper.columns) break;
    line = longer;
  }
  return line;
};

const filler = (count: number): readonly Row[] =>
  Array.from({ length: Math.max(0, count) }, () => blank);

/** At most so many rows; where some are left out, the last one says so. */
const atMostTold = (rows: readonly Row[], count: number): readonly Row[] =>
  rows.length <= count
    ? rows
    : [...rows.slice(0, count - 1), row('... help shows the rest', 'accent')];

const workRows = ({ run, question }: Shown, isLarge: boolean, paper: Paper): readonly Row[] => {
  const weighing = weighingOf(run, question);
  return weighing === undefined || run.phase === 'unbegun'
    ? askingRows(run, question, paper)
    : weighingRows(run, weighing, question, isLarge, paper);
};

const listUnder = ({ run, question }: Shown, room: number, paper: Paper): readonly Row[] =>
  run.phase === 'unbegun' || room < 2
    ? filler(room)
    : listRows(run, question.step, { ...paper, rows: room });

/** Finished and coming lines give way before the large figures do, these before anything else. */
const leastList = 3;

const narrowBody = (shown: Shown, room: number, paper: Paper): readonly Row[] => {
  const isLarge = paper.columns >= largeColumns && paper.rows + 1 >= largeRows;
  const large = workRows(shown, isLarge, paper);
  const work = large.length + leastList <= room ? large : workRows(shown, false, paper);
  // By the size and the kind of the question alone, so that nothing moves with what is said.
  const isAiry = paper.rows >= airyRows || weighingOf(shown.run, shown.question) === undefined;
  const top = isAiry ? [blank, ...work, blank] : work;
  const list = listUnder(shown, room - top.length, paper);
  const rows = [...top.slice(0, room), ...list];
  return [...rows, ...filler(room - rows.length)];
};

const wideBody = (shown: Shown, room: number, paper: Paper): readonly Row[] => {
  const cells = paper.columns - listColumns - 2;
  const work = workRows(shown, paper.rows + 1 >= largeRows, { ...paper, columns: cells });
  const list = listUnder(shown, room - 1, { ...paper, columns: listColumns });
  const rows = [blank, ...sideBySide(work, list, cells + 2)].slice(0, room);
  return [...rows, ...filler(room - rows.length)];
};

// Beside an addition its numbers come first; elsewhere cautions and answers may take the room.
const saidRoom = ({ run, question }: Shown, { rows }: Paper): number =>
  Math.max(2, Math.floor(weighingOf(run, question) === undefined ? rows / 2.5 : rows / 5));

/** Lays out the screen in exactly `paper.rows` rows, the field among them. */
export const layOut = (shown: Shown, paper: Paper): Frame => {
  const ask = atMostTold(askRows(shown, paper), Math.max(3, Math.floor(paper.rows / 3)));
  const said = atMostTold(saidRows(shown, paper), saidRoom(shown, paper));
  const room = paper.rows - 3 - ask.length - said.length;
  const body =
    paper.columns >= wideColumns ? wideBody(shown, room, paper) : narrowBody(shown, room, paper);
  const above = [headerRow(shown.run, shown.question, paper), ...body, ...said, ...ask];
  return {
    above: onPaper(above, paper),
    below: onPaper([commandsRow(shown.question, paper)], paper),
  };
};
