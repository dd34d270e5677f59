import type { Addition, Plan } from '../core/plan/plan.ts';
import { onScale as onScaleOf } from '../core/plan/window.ts';
import type { Mass } from '../core/quantity/quantity.ts';
import { isPositive } from '../core/quantity/quantity.ts';
import { showGrams, showMass } from '../core/quantity/show.ts';
import type { Problem } from '../core/sheet/problem.ts';
import type { Sheet } from '../core/sheet/sheet.ts';
import { layOut } from './lay-out.ts';
import { showProblem } from './show-problems.ts';

const heads = ['', 'material', 'target', 'low', 'high', 'scale', 'weighed in'];

const rowOf = (addition: Addition): readonly string[] => {
  const { n, name, onScale, exact, weighings, place, vessel } = addition;
  const on = (mass: Mass | undefined): string =>
    mass === undefined || onScale === undefined ? '–' : showMass(mass, onScale.scale);
  return [
    String(n),
    name,
    onScale?.target === undefined ? showGrams(exact, 4) : on(onScale.target),
    on(onScale?.low),
    on(onScale?.high),
    `${onScale?.scale.name ?? 'none'}${weighings > 1 ? `, ${weighings} weighings` : ''}`,
    place === 'vessel' ? vessel : 'a cup',
  ];
};

const isNumber = (column: number): boolean => column !== 1 && column < 5;

const partsOf = ({ onScale, parts }: Addition): readonly string[] =>
  onScale === undefined
    ? []
    : (parts ?? []).map(({ target, window }, index) => {
        const on = (mass: Mass): string => showMass(mass, onScale.scale);
        const { low = target, high = target } = onScaleOf(target, window, onScale.scale);
        return `    weighing ${index + 1}: ${on(target)}, accepted ${on(low)} to ${on(high)}`;
      });

const headline = (sheet: Sheet, { size }: Plan): string => {
  const over = isPositive(size.remainder) ? `, ${showGrams(size.remainder, 1)} over` : '';
  const binds = size.binds === undefined ? '' : `; ${size.binds} allows no more`;
  return `${sheet.name}, revision ${sheet.revision}: ${size.pieces} × ${sheet.makes.piece}, ${showGrams(size.batchMass, 1)} to weigh in${over}${binds}`;
};

/** The plan for people: additions by phase, then what was found. */
export const planTable = (
  path: string,
  sheet: Sheet,
  { plan, problems }: { readonly plan: Plan; readonly problems: readonly Problem[] },
): string => {
  const [head = '', ...rows] = layOut([heads, ...plan.additions.map(rowOf)], isNumber);
  const byPhase = plan.phases.flatMap(({ name, mass }) => [
    '',
    `${name}, ${showGrams(mass, 1)}`,
    ...plan.additions.flatMap((addition, index) =>
      addition.phase === name ? [rows[index] ?? '', ...partsOf(addition)] : [],
    ),
  ]);
  const found = problems.map(each => showProblem(path, each));
  return [
    headline(sheet, plan),
    '',
    head,
    ...byPhase,
    ...(found.length === 0 ? [] : ['', ...found]),
  ].join('\n');
};
