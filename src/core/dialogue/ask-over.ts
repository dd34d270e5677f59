import { isPositive, noMass, ratioOf, subtract, sum } from '../quantity/quantity.ts';
import { showShare } from '../quantity/show.ts';
import { additionInHand } from '../run/focus.ts';
import { canTakeBack } from '../run/judge.ts';
import { massesAtFinish } from '../run/project.ts';
import type { OpenRun } from '../run/state.ts';
import { everywhere } from './commands.ts';
import type { Command, Question } from './conversation.ts';
import { beyondWindow, showOn, targetOf, windowText } from './explain.ts';

/** The share of the line's material that accepting it leads to, against the planned one. */
const shareText = (run: OpenRun, n: number): string => {
  const found = additionInHand(run, n);
  if (found === undefined) return '';
  const share = (mass: typeof found.addition.exact): string => {
    const all = massesAtFinish(run, new Map([[n, mass]]));
    const own = all.filter(each => each.material === found.addition.material);
    const total = sum(
      noMass,
      all.map(each => each.mass),
    );
    return isPositive(total)
      ? showShare(
          ratioOf<'g'>(
            sum(
              noMass,
              own.map(each => each.mass),
            ),
            total,
          ),
          2,
        )
      : '0 %';
  };
  return `${share(found.state.total)} of the batch instead of ${share(found.addition.exact)}`;
};

/** What can be done about an over-pour, with its numbers. A stretch of the batch joins the list in a later version. */
export const askOver = (run: OpenRun, n: number): Question => {
  const found = additionInHand(run, n);
  if (found === undefined) throw new RangeError(`step ${n} is no addition`);
  const { addition, state } = found;
  const lift = showOn(addition, subtract(state.total, targetOf(addition)));
  const choices: readonly Command[] = [
    ...(canTakeBack(run, addition, state)
      ? [{ word: 'take back', does: `lift out about ${lift}, then weigh again` }]
      : []),
    { word: 'accept', does: `keep it, with a reason: ${shareText(run, n)}` },
    { word: 'mistyped', does: 'the number was typed wrong: give the right one' },
    { word: 'scrap', does: 'close the batch as rejected, with a reason' },
  ];
  return {
    kind: 'over',
    step: n,
    ask: `Over by ${showOn(addition, beyondWindow(addition, state.total))}: ${showOn(addition, state.total)} in, window ${windowText(addition)}. Type what is to be done.`,
    field: 'enter',
    commands: [...choices, ...everywhere.filter(({ word }) => word !== 'scrap')],
    choices,
    isDeliberate: true,
  };
};
