/** The list of steps: done, now and to come, windowed so that now is always in view. */
import { differenceOn, leftToAdd, showOn, titleOf } from '../../core/dialogue/explain.ts';
import type { Addition, PlannedStep } from '../../core/plan/plan.ts';
import { targetOf, verdictOf } from '../../core/plan/window.ts';
import { isZero, subtract } from '../../core/quantity/quantity.ts';
import { showGrams } from '../../core/quantity/show.ts';
import { plannedStep, stepState } from '../../core/run/focus.ts';
import type { AdditionState, RunFacts, StepState } from '../../core/run/state.ts';
import { fillTo } from './cells.ts';
import type { Paper } from './paper.ts';
import { cutRow, type Look, type Row, row, span } from './row.ts';

const massCells = 12;

/** What an addition that was begun lacks or has too much. */
const deviation = (addition: Addition, state: AdditionState): string => {
  if (isToppedUp(addition, state)) return `add ${showOn(addition, leftToAdd(addition, state))}`;
  const shown = differenceOn(addition, subtract(state.total, targetOf(addition)));
  const verdict = verdictOf(state.total, addition.window);
  return verdict === 'in' ? shown : `${shown} ${verdict}`;
};

const isToppedUp = (addition: Addition, state: AdditionState): boolean =>
  state.status === 'running' && verdictOf(state.total, addition.window) === 'under';

const lotsOf = (state: AdditionState): string =>
  [...new Set(state.pours.flatMap(pour => pour.lot ?? []))].join(', ');

interface Columns {
  readonly mass: string;
  readonly off: string;
  readonly lot: string;
}

const additionColumns = (addition: Addition, state: AdditionState): Columns => {
  const isWeighed = state.status === 'done' || !isZero(state.total);
  return {
    mass: showOn(addition, isWeighed ? state.total : targetOf(addition)),
    off: isWeighed ? deviation(addition, state) : 'to add',
    lot: lotsOf(state),
  };
};

const columnsOf = ({ addition }: PlannedStep, state: StepState): Columns | undefined => {
  if (state.kind === 'adjust' && !isZero(state.total)) {
    return { mass: showGrams(state.total, 2), off: 'added', lot: state.lot ?? '' };
  }
  return addition === undefined || state.kind !== 'addition'
    ? undefined
    : additionColumns(addition, state);
};

const markOf = (run: RunFacts, n: number, now: number | undefined): string => {
  const state = stepState(run, n);
  const { status } = state;
  if (n === now) return 'NOW';
  if (status === 'done') return 'done';
  if (status === 'running') return (state.kind === 'addition' && state.verdict) || 'runs';
  return run.later.has(n) ? 'later' : '';
};

const offCells = 15;

/** One step on one line: the numbers are whole, the name gives way. */
const stepRow = (run: RunFacts, n: number, now: number | undefined, paper: Paper): Row => {
  const planned = plannedStep(run, n);
  const state = stepState(run, n);
  const look: Look = n === now ? 'accent' : 'plain';
  const start = `${fillTo(markOf(run, n, now), 5)} ${fillTo(String(n), String(run.steps.length).length, 'right')} `;
  const name = paper.clean(titleOf(planned));
  const numbersOf = columnsOf(planned, state);
  if (numbersOf === undefined) return cutRow([span(start + name, look)], paper.columns);
  const { mass, off, lot } = numbersOf;
  const numbers = ` ${fillTo(paper.clean(mass), massCells, 'right')}  ${fillTo(paper.clean(off), offCells)}`;
  const rest = paper.columns - start.length - numbers.length;
  const lotCells = rest < 24 ? 0 : Math.min(18, Math.floor(rest / 3));
  const end = lotCells === 0 ? '' : ` ${fillTo(paper.clean(lot), lotCells - 1)}`;
  const text = start + fillTo(name, rest - lotCells) + numbers + end;
  return cutRow([span(text.trimEnd(), look)], paper.columns);
};

/** The first line that shows when `room` of `count` lines fit and line `at` must be among them. */
export const windowStart = (count: number, at: number, room: number): number =>
  Math.max(0, Math.min(at - Math.floor(room / 3), count - room));

/** A heading that counts what is out of view, and as many consecutive steps as fit. */
export const listRows = (run: RunFacts, now: number | undefined, paper: Paper): readonly Row[] => {
  const room = paper.rows - 1;
  if (room < 1) return [];
  const count = run.steps.length;
  const at = (now ?? count) - 1;
  const start = windowStart(count, at, room);
  const end = Math.min(count, start + room);
  const steps = Array.from({ length: end - start }, (_, index) => start + index + 1);
  return [
    row(paper.clean(heading(start, count - end)), 'strong'),
    ...steps.map(n => stepRow(run, n, now, paper)),
  ];
};

const heading = (above: number, below: number): string => {
  const hidden = [above > 0 ? `${above} above` : '', below > 0 ? `${below} below` : ''].filter(
    each => each !== '',
  );
  return hidden.length === 0 ? 'Steps' : `Steps: ${hidden.join(', ')}`;
};
