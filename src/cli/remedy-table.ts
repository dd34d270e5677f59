import type { Plan } from '../core/plan/plan.ts';
import { toDecimal, toFraction } from '../core/quantity/decimal.ts';
import { isEqual, one } from '../core/quantity/quantity.ts';
import { showGrams, showMass, showShare } from '../core/quantity/show.ts';
import type { Progress } from '../core/remedy/build-situation.ts';
import { explainReason } from '../core/remedy/explain-reason.ts';
import type {
  LineMass,
  OfferedRemedy,
  RefusedRemedy,
  Remedy,
  RemedyKind,
} from '../core/remedy/remedy.ts';
import { explainLimit } from '../core/run/explain-limit.ts';
import type { Sheet } from '../core/sheet/sheet.ts';
import { cellWidth, fillTo } from '../ui/view/cells.ts';
import { outOfWindow } from './remedy-options.ts';

const titles: Readonly<Record<RemedyKind, string>> = {
  'take-back': 'take back',
  'least-stretch': 'least stretch',
  'whole-pieces': 'whole pieces',
  'exact-proportion': 'exact proportion',
  accept: 'accept as a deviation',
  scrap: 'scrap',
};

const layOut = (rows: readonly (readonly [string, string, string])[]): readonly string[] => {
  const widthOf = (column: 0 | 1 | 2): number =>
    Math.max(0, ...rows.map(row => cellWidth(row[column])));
  const [what, name, mass] = [widthOf(0), widthOf(1), widthOf(2)];
  return rows.map(row =>
    `    ${fillTo(row[0], what)}  ${fillTo(row[1], name)}  ${fillTo(row[2], mass, 'right')}`.trimEnd(),
  );
};

const rowsOf = (
  plan: Plan,
  what: string,
  lines: readonly LineMass[],
): readonly (readonly [string, string, string])[] =>
  lines.map(({ n, mass }) => {
    const addition = plan.additions[n - 1];
    const scale = addition?.onScale?.scale;
    return [
      what,
      `${n} ${addition?.name ?? ''}`,
      scale === undefined ? showGrams(mass, 4) : showMass(mass, scale),
    ];
  });

const sizeOf = (sheet: Sheet, { kind, stretch, batchMass, pieces }: OfferedRemedy): string => {
  if (kind === 'scrap') return `${showGrams(batchMass, 1)} are used up`;
  const size = isEqual(stretch, one)
    ? ''
    : `${toFraction(stretch)} = ${toDecimal(stretch, 4, 'half-even')} times as much, `;
  return `${size}${showGrams(batchMass, 1)}, ${pieces} × ${sheet.makes.piece}`;
};

const consequences = (sheet: Sheet, remedy: OfferedRemedy): readonly string[] => [
  ...remedy.surplus.map(({ phase, mass }) => `surplus of ${phase}: ${showGrams(mass, 1)}`),
  ...(remedy.forcedBy === undefined
    ? []
    : [`Less would not do. ${explainReason(sheet, remedy.forcedBy)}`]),
  ...remedy.shares.map(
    ({ n, planned, projected }) =>
      `line ${n} is then ${showShare(projected, 2)} of the batch; the sheet says ${showShare(planned, 2)}`,
  ),
  ...(remedy.kind === 'accept' ? remedy.limits.map(each => explainLimit(sheet, each)) : []),
];

const offeredRows = (sheet: Sheet, plan: Plan, remedy: OfferedRemedy): readonly string[] => [
  `${titles[remedy.kind]}: ${sizeOf(sheet, remedy)}`,
  ...layOut([
    ...rowsOf(plan, 'lift out', remedy.lifts),
    ...rowsOf(plan, 'top up', remedy.topUps),
    ...rowsOf(plan, 'target', remedy.targets),
  ]),
  ...consequences(sheet, remedy).map(text => `    ${text}`),
];

const refusedRow = (sheet: Sheet, { kind, stretch, reason }: RefusedRemedy): string => {
  const size = stretch === undefined || isEqual(stretch, one) ? '' : `, ${toFraction(stretch)}`;
  return `${titles[kind]}${size}: ${explainReason(sheet, reason)}`;
};

const headline = (plan: Plan, progress: Progress): readonly string[] => {
  const out = outOfWindow(plan, progress);
  if (out.length === 0) return ['All that was poured is in its window.'];
  return out.map(({ addition, net, verdict }) => {
    const show = (mass: typeof net): string =>
      addition.onScale === undefined ? showGrams(mass, 4) : showMass(mass, addition.onScale.scale);
    const { window, n, name, onScale } = addition;
    return `${n} ${name}: ${show(net)} is ${verdict} its window, ${show(onScale?.low ?? window.low)} to ${show(onScale?.high ?? window.high)}.`;
  });
};

/** The remedies for people: what is possible with its numbers, below it what is not with its reason. */
export const remedyTable = (
  sheet: Sheet,
  plan: Plan,
  progress: Progress,
  remedies: readonly Remedy[],
): string => {
  const offered = remedies.flatMap(each =>
    each.possible ? ['', ...offeredRows(sheet, plan, each)] : [],
  );
  const refused = remedies.flatMap(each => (each.possible ? [] : [refusedRow(sheet, each)]));
  return [
    ...headline(plan, progress),
    ...offered,
    ...(refused.length === 0 ? [] : ['', 'Not possible:', ...refused]),
  ].join('\n');
};
