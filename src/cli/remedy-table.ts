import { showOn, windowText } from '../core/dialogue/explain.ts';
import type { Plan } from '../core/plan/plan.ts';
import { toDecimal, toFraction } from '../core/quantity/decimal.ts';
import { isEqual, one } from '../core/quantity/quantity.ts';
import { showGrams, showShare } from '../core/quantity/show.ts';
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
import { layOut } from './lay-out.ts';
import { outOfWindow } from './remedy-options.ts';

const titles: Readonly<Record<RemedyKind, string>> = {
  'take-back': 'take back',
  'least-stretch': 'least stretch',
  'whole-pieces': 'whole pieces',
  'exact-proportion': 'exact proportion',
  accept: 'accept as a deviation',
  scrap: 'scrap',
};

const rowsOf = (
  plan: Plan,
  what: string,
  lines: readonly LineMass[],
): readonly (readonly string[])[] =>
  lines.map(({ n, mass }) => {
    const addition = plan.additions[n - 1];
    return [
      what,
      `${n} ${addition?.name ?? ''}`,
      addition === undefined ? showGrams(mass, 4) : showOn(addition, mass),
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
  ...[
    ...layOut(
      [
        ...rowsOf(plan, 'lift out', remedy.lifts),
        ...rowsOf(plan, 'top up', remedy.topUps),
        ...rowsOf(plan, 'target', remedy.targets),
      ],
      column => column === 2,
    ),
    ...consequences(sheet, remedy),
  ].map(text => `    ${text}`),
];

const refusedRow = (sheet: Sheet, { kind, stretch, reason }: RefusedRemedy): string => {
  const size = stretch === undefined || isEqual(stretch, one) ? '' : `, ${toFraction(stretch)}`;
  return `${titles[kind]}${size}: ${explainReason(sheet, reason)}`;
};

const headline = (plan: Plan, progress: Progress): readonly string[] => {
  const out = outOfWindow(plan, progress);
  if (out.length === 0) return ['All that was poured is in its window.'];
  return out.map(
    ({ addition, net, verdict }) =>
      `${addition.n} ${addition.name}: ${showOn(addition, net)} is ${verdict} its window, ${windowText(addition)}.`,
  );
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
