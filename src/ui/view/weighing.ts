/** An addition as it is weighed: the target large, and beside it what the scale should say. */

import type { Question } from '../../core/dialogue/conversation.ts';
import {
  differenceOn,
  grossToExpect,
  leftToAdd,
  showOn,
  usualWay,
  wayText,
  weighingInHand,
  windowText,
} from '../../core/dialogue/explain.ts';
import type { Addition } from '../../core/plan/plan.ts';
import { targetOf } from '../../core/plan/window.ts';
import { absolute, isNegative, isZero, type Mass, subtract } from '../../core/quantity/quantity.ts';
import type { Way } from '../../core/run/event.ts';
import { vesselNow } from '../../core/run/focus.ts';
import { earlierPours, presentPour } from '../../core/run/judge.ts';
import { isPartDone } from '../../core/run/pours.ts';
import type { AdditionState, RunFacts } from '../../core/run/state.ts';
import { cellWidth } from './cells.ts';
import { largeDigits } from './digits.ts';
import { type Fact, factFlow } from './fact-flow.ts';
import { gaugeRows } from './gauge.ts';
import type { Paper } from './paper.ts';
import { type Look, type Row, row, span } from './row.ts';

export interface Weighing {
  readonly addition: Addition;
  readonly state: AdditionState;
}

/** One of several weighings as an addition of its own: the display knows nothing of the others. */
export const inHand = (weighing: Weighing): Weighing => {
  const { addition, state } = weighing;
  const found = weighingInHand(addition, state);
  if (found === undefined) return weighing;
  const pours = isPartDone(state) ? [] : state.pours.slice(-1);
  return { addition: found.addition, state: { ...state, pours, total: found.net } };
};

/** Which of several weighings it is, and how the addition as a whole stands. */
const partFacts = ({ addition, state }: Weighing): readonly Fact[] => {
  const found = weighingInHand(addition, state);
  if (found === undefined) return [];
  const whole = `${showOn(addition, state.total)} of ${showOn(addition, targetOf(addition))}`;
  return [
    ['weighing', `${found.n} of ${found.of}: ${showOn(addition, targetOf(found.addition))}`],
    ['in all', whole],
  ];
};

const wayOf = ({ addition, state }: Weighing, { way }: Question): Way =>
  way ?? state.lastReading?.way ?? usualWay(addition);

const isBegun = (state: AdditionState): boolean => !isZero(state.total);

const leftOf = ({ addition, state }: Weighing): Mass => leftToAdd(addition, state);

const label = (weighing: Weighing): string => {
  if (isNegative(leftOf(weighing))) return 'over the target by';
  return isBegun(weighing.state) ? 'still to add' : 'to add';
};

/** `1 234.5` and `g`: the unit is what follows the last blank. */
const parted = (shown: string): readonly [string, string] => {
  const at = shown.lastIndexOf(' ');
  return [shown.slice(0, at), shown.slice(at + 1)];
};

const largeFigures = (shown: string, paper: Paper): readonly Row[] | undefined => {
  const [number, unit] = parted(shown);
  const rows = largeDigits(number, paper.ink);
  const cells = cellWidth(rows?.[0] ?? '') + 2 + cellWidth(unit);
  if (rows === undefined || cells > paper.columns) return undefined;
  return rows.map((line, at) => [span(line + (at === 4 ? `  ${unit}` : ''), 'accent')]);
};

/** A mass in large figures under its label, or on one line where it has no room. */
export const figureRows = (
  name: string,
  shown: string,
  look: Look,
  paper: Paper,
): readonly Row[] => {
  const large = largeFigures(shown, paper);
  return large === undefined ? smallRows(name, shown, look, paper) : [row(name, look), ...large];
};

const smallRows = (name: string, shown: string, look: Look, paper: Paper): readonly Row[] => [
  [span(name, look), span('  '), span(paper.clean(shown), 'accent')],
];

/** The target as large as the room allows, with what it is. */
export const targetRows = (weighing: Weighing, isLarge: boolean, paper: Paper): readonly Row[] => {
  const shown = showOn(weighing.addition, absolute(leftOf(weighing)));
  const look = isNegative(leftOf(weighing)) ? 'alarm' : 'strong';
  return (isLarge ? figureRows : smallRows)(label(weighing), shown, look, paper);
};

/** The material, its phase, and why it wants care where the sheet says so. */
export const materialRow = (run: RunFacts, { addition }: Weighing, paper: Paper): Row => {
  const hazard = run.sheet.materials.get(addition.material)?.hazard;
  return [
    span(paper.clean(addition.name), 'strong'),
    span(paper.clean(`  ${addition.phase}`)),
    ...(hazard === undefined ? [] : [span(paper.clean(`  Take care: ${hazard}`), 'strong')]),
  ];
};

const onDisplay = ({ addition, state }: Weighing, way: Way): Mass | undefined =>
  way === 'net' || way === 'cup' ? subtract(targetOf(addition), earlierPours(state)) : undefined;

const facts = (run: RunFacts, weighing: Weighing, question: Question): readonly Fact[] => {
  const now = inHand(weighing);
  const { addition, state } = now;
  const way = wayOf(weighing, question);
  const shown = (mass: Mass | undefined): string | undefined =>
    mass === undefined ? undefined : showOn(addition, mass);
  const vessel = run.vessels.get(vesselNow(run, addition.vessel));
  return [
    ...partFacts(weighing),
    ['window', windowText(addition)],
    ['scale', addition.onScale?.scale.name ?? 'none can weigh it'],
    ['reading', wayText[way]],
    ['lot', presentPour(weighing.state).lot],
    ['should show', shown(onDisplay(now, way))],
    ['gross to expect', shown(grossToExpect(run, addition, state))],
    [`in ${vesselNow(run, addition.vessel)}`, shown(vessel?.contents)],
  ];
};

/** Window, scale, way, lot and totals. */
export const factRows = (
  run: RunFacts,
  weighing: Weighing,
  question: Question,
  paper: Paper,
): readonly Row[] => factFlow(facts(run, weighing, question), paper);

/** The reading against its window. */
export const windowRows = ({ addition, state }: Weighing, paper: Paper): readonly Row[] => {
  const off = subtract(state.total, targetOf(addition));
  return gaugeRows(
    {
      window: addition.window,
      target: addition.exact,
      ...(isBegun(state) ? { reading: state.total } : {}),
      difference: paper.clean(differenceOn(addition, off)),
    },
    paper.columns,
  );
};
