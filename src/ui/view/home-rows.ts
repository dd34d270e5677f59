/** The home screen as rows. */
import { type HomeEntry, type HomeModel, homeEntries } from '../../core/dialogue/home.ts';
import type { HomeState } from '../home-state.ts';
import { onPaper, type Paper } from './paper.ts';
import { blank, blanks, paragraph, type Row, row, span, spread } from './row.ts';
import { windowStart } from './steps.ts';
import { isTooSmall, sizeNotice } from './too-small.ts';

const isFirstStart = ({ inHand, closed }: HomeModel): boolean =>
  inHand.length === 0 && closed.length === 0;

const welcome =
  'Tarebook walks you through a batch: weights from a sheet, every reading checked, a signed record. Choose a demo sheet and press Enter for a practice batch; nothing has to be set up for it.';

const entryRow = (entry: HomeEntry, isChosen: boolean, paper: Paper): Row => {
  const look = isChosen ? 'accent' : 'plain';
  const detail = entry.detail === '' ? [] : [span(paper.clean(`  ${entry.detail}`), look)];
  return spread(
    [span(paper.clean(`${isChosen ? '>' : ' '} ${entry.title}`), look)],
    detail,
    paper.columns,
  );
};

/** Entries under the headings of their sections, with the place of the chosen one among the rows. */
const listOf = (
  entries: readonly HomeEntry[],
  at: number,
  paper: Paper,
): { readonly rows: readonly Row[]; readonly chosen: number } => {
  const rows: Row[] = [];
  let chosen = 0;
  entries.forEach((entry, index) => {
    if (entry.section !== entries[index - 1]?.section) rows.push(row(entry.section, 'strong'));
    if (index === at) chosen = rows.length;
    rows.push(entryRow(entry, index === at, paper));
  });
  return { rows, chosen };
};

const footRows = (
  state: HomeState,
  chosen: HomeEntry | undefined,
  paper: Paper,
): readonly Row[] => [
  ...(state.notice === ''
    ? []
    : paragraph(paper.clean(`! ${state.notice}`), paper.columns, 'alarm')),
  ...paragraph(
    paper.clean(chosen?.does ?? 'There is no sheet here yet.'),
    paper.columns,
    'strong',
  ).slice(0, 3),
  state.typed === ''
    ? row('Up, Down: another one   Enter: choose   Ctrl+C: leave')
    : row(paper.clean(`typed: ${state.typed}`)),
];

/** The home screen in exactly `paper.rows` rows, the chosen entry always in view. */
export const homeRows = (model: HomeModel, state: HomeState, paper: Paper): readonly Row[] => {
  const { columns, rows } = state.size;
  if (isTooSmall(columns, rows))
    return onPaper(paragraph(sizeNotice(columns, rows), columns, 'strong'), paper).slice(
      0,
      paper.rows,
    );
  const entries = homeEntries(model, state.wantsPractice);
  const head = [
    row('tarebook', 'strong'),
    ...(isFirstStart(model) ? paragraph(welcome, paper.columns) : []),
    blank,
  ];
  const foot = footRows(state, entries[state.at], paper);
  const room = paper.rows - head.length - foot.length;
  const { rows: list, chosen } = listOf(entries, state.at, paper);
  const start = windowStart(list.length, chosen, room);
  const shown = list.slice(start, start + room);
  return onPaper([...head, ...shown, ...blanks(room - shown.length), ...foot], paper);
};
