/** Questions about a reading over its window: whether it was read wrongly, and what can be done. */
import { beyondWindow } from '../plan/window.ts';
import { isPositive, one, subtract } from '../quantity/quantity.ts';
import { showGrams, showShare } from '../quantity/show.ts';
import { explainReason } from '../remedy/explain-reason.ts';
import type { OfferedRemedy, Remedy, RemedyKind } from '../remedy/remedy.ts';
import { additionInHand } from '../run/focus.ts';
import { remediesOf } from '../run/situation-of-run.ts';
import { mentionedSlipsOf } from '../run/slip-of-run.ts';
import type { OpenRun } from '../run/state.ts';
import type { Slip } from '../slip/slip.ts';
import { everywhere } from './commands.ts';
import type { Command, Question } from './conversation.ts';
import { showOn, windowText } from './explain.ts';

/** The word that a maker types for each way out. */
export const remedyWords: Readonly<Record<RemedyKind, string>> = {
  'take-back': 'take back',
  'least-stretch': 'stretch',
  'whole-pieces': 'pieces',
  'exact-proportion': 'proportion',
  accept: 'accept',
  scrap: 'scrap',
};

type Lines = OfferedRemedy['topUps'];

const massesText = (run: OpenRun, lines: Lines): string =>
  lines
    .flatMap(({ n, mass }) => {
      const addition = run.plan.additions[n - 1];
      return addition === undefined ? [] : `${showOn(addition, mass)} of ${addition.name}`;
    })
    .join(', ');

/** Top-ups that an earlier stretch left open: they go on, to their new targets. */
const stillOpen = (run: OpenRun, { targets }: OfferedRemedy): Lines =>
  targets.flatMap(({ n, material, mass }) => {
    const addition = run.plan.additions[n - 1];
    const state = addition && run.steps[addition.step - 1];
    const isBegun = state?.kind === 'addition' && isPositive(state.total);
    return isBegun ? [{ n, material, mass: subtract(mass, state.total) }] : [];
  });

const byPouringOrder = (a: Lines[number], b: Lines[number]): number => a.n - b.n;

/** How much bigger the batch becomes, and what is topped up for it. */
const explainStretch = (run: OpenRun, remedy: OfferedRemedy): string => {
  const { stretch, batchMass, pieces, topUps, surplus, forcedBy } = remedy;
  const size = `batch ${showShare(subtract(stretch, one), 2)} bigger, ${showGrams(batchMass, 1)}, ${pieces} pieces`;
  const left = surplus.map(({ phase, mass }) => `${showGrams(mass, 1)} of ${phase} to spare`);
  const all = [...topUps, ...stillOpen(run, remedy)].toSorted(byPouringOrder);
  const tops = all.length === 0 ? 'no top-up' : `top up ${massesText(run, all)}`;
  const why =
    forcedBy === undefined ? [] : [`less would not do: ${explainReason(run.sheet, forcedBy)}`];
  return [size, ...left, tops, ...why].join('; ');
};

const explainAccept = ({ shares }: OfferedRemedy): string =>
  [
    'keep it, with a reason',
    ...shares.map(
      ({ planned, projected }) =>
        `${showShare(projected, 2)} of the batch instead of ${showShare(planned, 2)}`,
    ),
  ].join(': ');

const does = (run: OpenRun, remedy: OfferedRemedy): string => {
  switch (remedy.kind) {
    case 'take-back':
      return `lift out about ${massesText(run, remedy.lifts)}, then weigh again`;
    case 'accept':
      return explainAccept(remedy);
    case 'scrap':
      return 'close the batch as rejected, with a reason';
    default:
      return explainStretch(run, remedy);
  }
};

const mistyped: Command = {
  word: 'mistyped',
  does: 'the number was typed wrong: give the right one',
};

const choicesOf = (run: OpenRun, all: readonly Remedy[]): readonly Command[] =>
  all.flatMap(remedy =>
    remedy.possible ? [{ word: remedyWords[remedy.kind], does: does(run, remedy) }] : [],
  );

const impossibleOf = (run: OpenRun, all: readonly Remedy[]): readonly string[] =>
  all.flatMap(remedy =>
    remedy.possible
      ? []
      : [`${remedyWords[remedy.kind]} is not possible: ${explainReason(run.sheet, remedy.reason)}`],
  );

const mentioned = (run: OpenRun, n: number): string =>
  mentionedSlipsOf(run, n)
    .slice(0, 1)
    .map(({ asks }) => ` ${asks}`)
    .join('');

/** The numbers of one way out; undefined where it is none. */
export const explainRemedy = (run: OpenRun, kind: RemedyKind): string | undefined => {
  const remedy = remediesOf(run).find(each => each.kind === kind);
  return remedy?.possible === true ? does(run, remedy) : undefined;
};

/** What can be done about an over-pour, each way with its numbers, in the fixed order. */
export const askOver = (run: OpenRun, n: number): Question => {
  const found = additionInHand(run, n);
  if (found === undefined) throw new RangeError(`step ${n} is no addition`);
  const { addition, state } = found;
  const all = remediesOf(run);
  const choices = [...choicesOf(run, all), mistyped];
  const beyond = beyondWindow(state.total, addition.window);
  return {
    kind: 'over',
    step: n,
    ask: `${isPositive(beyond) ? `Over by ${showOn(addition, beyond)}` : 'Over'}: ${showOn(addition, state.total)} in, window ${windowText(addition)}.${mentioned(run, n)} Type what is to be done.`,
    field: 'enter',
    commands: [...choices, ...everywhere.filter(({ word }) => word !== 'scrap')],
    choices,
    impossible: impossibleOf(run, all),
    isDeliberate: true,
  };
};

/** Whether the last reading was only read wrongly: asked, never assumed. */
export const askSlip = (n: number, { asks, todo }: Slip): Question => ({
  kind: 'slip',
  step: n,
  ask: `${asks} ${todo} Type yes or no.`,
  field: 'enter',
  commands: [
    { word: 'yes', does: 'it was read wrongly: gives the right number' },
    { word: 'no', does: 'it was read rightly: says what can be done' },
    ...everywhere,
  ],
  isDeliberate: true,
});
