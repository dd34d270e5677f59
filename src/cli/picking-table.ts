import { isZero, type Mass } from '../core/quantity/quantity.ts';
import { showGrams } from '../core/quantity/show.ts';
import { layOut } from './lay-out.ts';
import { type Picked, type PlannedSheet, pickingList } from './picking-list.ts';

const inciRows = ({ name, inci }: Picked): readonly (readonly string[])[] => {
  const others = inci.filter(each => each.toLowerCase() !== name.toLowerCase());
  return others.length === 0 ? [] : [[`    ${others.join(' / ')}`]];
};

const show = (mass: Mass, places: number): string => (isZero(mass) ? '–' : showGrams(mass, places));

const massCells = (picked: Picked): readonly string[] =>
  [picked, ...picked.parts].map(({ mass, places }) => show(mass, places));

const adjustCells = (picked: Picked): readonly string[] =>
  [picked, ...picked.parts].map(({ adjust }) => show(adjust, 1));

/** What adjust steps may take stands on a line of its own: how much it will be, nobody knows yet. */
const rowsOf = (picked: Picked): readonly (readonly string[])[] => [
  ...(isZero(picked.mass) ? [] : [[picked.name, ...massCells(picked)], ...inciRows(picked)]),
  ...(isZero(picked.adjust)
    ? []
    : [[`${picked.name}, to adjust, at most`, ...adjustCells(picked)]]),
];

const batchLine = ({ path, sheet, plan }: PlannedSheet, index: number): string =>
  `${index + 1}  ${path}: ${plan.size.pieces} × ${sheet.makes.piece}`;

/** What to fetch for all sheets together, and how much of it is for which. */
export const pickingTable = (sheets: readonly PlannedSheet[]): string => {
  const heads = ['material', 'to fetch', ...sheets.map((_, index) => `for ${index + 1}`)];
  return [
    `To fetch for ${sheets.length} batches`,
    ...sheets.map(batchLine),
    '',
    ...layOut([heads, ...pickingList(sheets).flatMap(rowsOf)], column => column > 0),
  ].join('\n');
};
