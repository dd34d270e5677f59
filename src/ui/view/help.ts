/** The help overlay: the commands of this question and the keys, as many as fit. */
import type { Question, Saying } from '../../core/dialogue/conversation.ts';
import { cellWidth, fillTo } from './cells.ts';
import { onPaper, type Paper } from './paper.ts';
import { blank, blanks, paragraph, type Row, row, span } from './row.ts';

/** What help is about: the question, and what was said before it. */
export interface Told {
  readonly question: Question;
  readonly said: readonly Saying[];
}

export interface HelpView {
  /** The first line in view. */
  readonly top: number;
  /** A line that arrived while help was open. */
  readonly held?: string;
}

const keys: readonly (readonly [string, string])[] = [
  ['Enter', 'gives what is in the field'],
  ['Up', 'brings back the line typed last'],
  ['Left, Right, Home, End', 'move in the field'],
  ['Backspace, Delete, Ctrl+U', 'take out a character, or all before the caret'],
  ['Esc', 'closes help, or goes back where back is offered; never takes a reading away'],
  ['Ctrl+C', 'leaves safely; the batch can be resumed'],
];

const nameCells = 26;

const entry = (name: string, does: string, paper: Paper): readonly Row[] => {
  const indent = Math.max(12, Math.min(nameCells, Math.floor(paper.columns / 3)));
  const [first, ...rest] = paragraph(does, paper.columns - indent - 1);
  const head = cellWidth(name) > indent ? name : fillTo(name, indent);
  return [
    [span(`${head} `, 'strong'), ...(first ?? blank)],
    ...rest.map(line => [span(' '.repeat(indent + 1)), ...line]),
  ];
};

const helpLines = ({ question, said }: Told, paper: Paper): readonly Row[] => [
  ...said.flatMap(({ text }) => paragraph(paper.clean(text), paper.columns)),
  ...paragraph(paper.clean(question.ask), paper.columns),
  ...(question.enter === undefined ? [] : entry('Enter alone', paper.clean(question.enter), paper)),
  blank,
  row('Words, each ended by Enter', 'accent'),
  ...question.commands.flatMap(each =>
    entry(paper.clean(each.word), paper.clean(each.does), paper),
  ),
  ...(question.impossible ?? []).flatMap(text => paragraph(paper.clean(text), paper.columns)),
  blank,
  row('Keys', 'accent'),
  ...keys.flatMap(([name, does]) => entry(name, does, paper)),
];

/** The furthest that help can be scrolled in so many rows. */
export const lastTop = (told: Told, paper: Paper): number =>
  lastTopOf(helpLines(told, paper), paper);

const lastTopOf = (lines: readonly Row[], paper: Paper): number =>
  Math.max(0, lines.length - roomFor(paper));

// The heading, what is held, and the last line stay in view.
const roomFor = (paper: Paper): number => paper.rows - 3;

/** The whole frame while help is open. */
export const helpRows = (told: Told, { top, held }: HelpView, paper: Paper): readonly Row[] => {
  const all = helpLines(told, paper);
  const room = roomFor(paper);
  const start = Math.min(top, lastTopOf(all, paper));
  const shown = all.slice(start, start + room);
  const below = Math.max(0, all.length - start - room);
  const more = [
    start > 0 ? `${start} above` : '',
    below > 0 ? `${below} below, Down shows them` : '',
  ];
  const rows = [
    row(paper.clean(['Help', ...more.filter(each => each !== '')].join(': ')), 'accent'),
    ...shown,
    ...blanks(room - shown.length),
    held === undefined
      ? blank
      : row(
          paper.clean(
            `${held} waiting: it is not used before help is closed and Enter is pressed.`,
          ),
          'alarm',
        ),
    row('Enter or Esc closes help', 'strong'),
  ];
  return onPaper(rows, paper);
};
