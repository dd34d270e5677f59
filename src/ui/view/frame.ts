/** The whole screen as rows: what stands where, and what gives way when there is little room. */
import type { Question, Saying } from '../../core/dialogue/conversation.ts';
import { additionInHand } from '../../core/run/focus.ts';
import type { Run, RunFacts } from '../../core/run/state.ts';
import { askingRows, isAboutVessel } from './asking.ts';
import { headerRow } from './header.ts';
import { onPaper, type Paper } from './paper.ts';
import {
  atMostTold,
  blank,
  blanks,
  paragraph,
  type Row,
  rowWidth,
  sideBySide,
  span,
} from './row.ts';
import { listRows } from './steps.ts';
import { leastTroubleRows, type Trouble, troubleRows, waysOut } from './trouble.ts';
import {
  factRows,
  inHand,
  materialRow,
  targetRows,
  type Weighing,
  windowRows,
} from './weighing.ts';

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

/** The addition that a question is about, when it is about one whose weighing shows. */
export const weighingOf = (run: Run, question: Question): Weighing | undefined => {
  if (run.phase === 'unbegun' || question.step === undefined) return undefined;
  if (isAboutVessel(question)) return undefined;
  return additionInHand(run, question.step);
};

const troubleOf = ({ run, question }: Shown): Trouble | undefined => {
  const weighing = weighingOf(run, question);
  return weighing === undefined || run.phase === 'unbegun' || waysOut(question).length === 0
    ? undefined
    : { run, weighing, question };
};

const weighingRows = (
  run: RunFacts,
  weighing: Weighing,
  question: Question,
  isLarge: boolean,
  paper: Paper,
): readonly Row[] => [
  materialRow(run, weighing, paper),
  ...targetRows(inHand(weighing), isLarge, paper),
  ...factRows(run, weighing, question, paper),
  ...windowRows(inHand(weighing), paper),
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
const commandsRow = (question: Question, paper: Paper): Row => {
  const { enter, commands } = question;
  const shown = new Set(['help', ...waysOut(question).map(each => each.word)]);
  const others = commands.map(each => each.word).filter(word => !shown.has(word));
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

/** Finished and coming lines give way before the large figures do, these before anything else. */
const leastList = 3;

const stepRows = (
  { run, question }: Shown,
  room: number,
  mayBeLarge: boolean,
  paper: Paper,
): readonly Row[] => {
  const weighing = weighingOf(run, question);
  if (weighing === undefined || run.phase === 'unbegun') return askingRows(run, question, paper);
  const large = weighingRows(run, weighing, question, mayBeLarge, paper);
  return large.length + leastList <= room
    ? large
    : weighingRows(run, weighing, question, false, paper);
};

const workRows = (
  shown: Shown,
  room: number,
  mayBeLarge: boolean,
  paper: Paper,
): readonly Row[] => {
  const trouble = troubleOf(shown);
  return trouble === undefined
    ? stepRows(shown, room, mayBeLarge, paper)
    : troubleRows(trouble, room, mayBeLarge, paper);
};

// Under the ways out of a trouble, a line or two of the list would only distract.
const listUnder = (shown: Shown, room: number, paper: Paper): readonly Row[] => {
  const { run, question } = shown;
  const least = troubleOf(shown) === undefined ? 2 : leastList + 1;
  return run.phase === 'unbegun' || room < least
    ? blanks(room)
    : listRows(run, question.step, { ...paper, rows: room });
};

const narrowBody = (shown: Shown, room: number, paper: Paper): readonly Row[] => {
  const isLarge = paper.columns >= largeColumns && paper.rows + 1 >= largeRows;
  // By the size and the kind of the question alone, so that nothing moves with what is said.
  const isAiry = paper.rows >= airyRows || weighingOf(shown.run, shown.question) === undefined;
  const work = workRows(shown, isAiry ? room - 2 : room, isLarge, paper);
  const top = isAiry ? [blank, ...work, blank] : work;
  const list = listUnder(shown, room - top.length, paper);
  const rows = [...top.slice(0, room), ...list];
  return [...rows, ...blanks(room - rows.length)];
};

/** Beside the list there is less room for the work. */
const workPaper = (paper: Paper): Paper =>
  paper.columns >= wideColumns ? { ...paper, columns: paper.columns - listColumns - 2 } : paper;

const wideBody = (shown: Shown, room: number, paper: Paper): readonly Row[] => {
  const own = workPaper(paper);
  const work = workRows(shown, room - 1, paper.rows + 1 >= largeRows, own);
  const list = listUnder(shown, room - 1, { ...paper, columns: listColumns });
  const rows = [blank, ...sideBySide(work, list, own.columns + 2)].slice(0, room);
  return [...rows, ...blanks(room - rows.length)];
};

// Beside an addition its numbers come first; elsewhere cautions and answers may take the room.
const saidRoom = ({ run, question }: Shown, { rows }: Paper): number =>
  Math.max(2, Math.floor(weighingOf(run, question) === undefined ? rows / 2.5 : rows / 5));

/** The question and what was said, so far as they leave room for what must stand above them. */
const talkRows = (
  shown: Shown,
  paper: Paper,
): { readonly ask: readonly Row[]; readonly said: readonly Row[] } => {
  const trouble = troubleOf(shown);
  const asks = Math.max(3, Math.floor(paper.rows / 3));
  if (trouble === undefined) {
    return {
      ask: atMostTold(askRows(shown, paper), asks),
      said: atMostTold(saidRows(shown, paper), saidRoom(shown, paper)),
    };
  }
  const room = paper.rows - 3 - leastTroubleRows(trouble, workPaper(paper));
  const ask = atMostTold(askRows(shown, paper), Math.min(asks, room - 1));
  const said = atMostTold(saidRows(shown, paper), Math.min(2, room - ask.length));
  return { ask, said };
};

/** Lays out the screen in exactly `paper.rows` rows, the field among them. */
export const layOut = (shown: Shown, paper: Paper): Frame => {
  const { ask, said } = talkRows(shown, paper);
  const room = paper.rows - 3 - ask.length - said.length;
  const body =
    paper.columns >= wideColumns ? wideBody(shown, room, paper) : narrowBody(shown, room, paper);
  const above = [headerRow(shown.run, shown.question, paper), ...body, ...said, ...ask];
  return {
    above: onPaper(above, paper),
    below: onPaper([commandsRow(shown.question, paper)], paper),
  };
};
