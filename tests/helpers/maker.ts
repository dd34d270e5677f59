/** A maker who answers whatever is asked, with a right number or a reason. */
import { toExact } from '../../src/core/quantity/decimal.ts';
import { noMass, smaller, subtract } from '../../src/core/quantity/quantity.ts';
import { toMultiple } from '../../src/core/quantity/rounding.ts';
import type { Asked } from '../../src/core/run/asked.ts';
import type { Intent } from '../../src/core/run/intent.ts';
import type { OpenRun } from '../../src/core/run/state.ts';

export const reason = 'because of the weather';

const goOnTally = (n: number, { due }: Asked & { readonly kind: 'tally' }): Intent => ({
  type: 'tally',
  step: n,
  item: due.item,
  typed: due.item === 'weight' ? '99.5' : '0',
});

/** An over-pour: taken back to the target where that can be, in the way it was read. */
const decideOver = (run: OpenRun, n: number): Intent => {
  const accept: Intent = { type: 'accept', step: n, reason };
  const state = run.steps[n - 1];
  const addition = run.plan.steps[n - 1]?.addition;
  const target = addition?.onScale?.target;
  const d = addition?.onScale?.scale.readability;
  const pour = state?.kind === 'addition' ? state.pours.at(-1) : undefined;
  if (state?.kind !== 'addition' || target === undefined || pour === undefined || !d) return accept;
  const left = subtract(target, subtract(state.total, pour.net));
  if (left.num < 0n) return accept;
  return {
    type: 'take-back',
    step: n,
    way: 'net',
    part: 'display',
    typed: toExact(toMultiple(left, d, 'half-even')),
  };
};

/** What leads on from any question, with a right number or a reason. */
export const goOn = (run: OpenRun, due: Asked): Intent => {
  switch (due.kind) {
    case 'resume':
      return { type: 'resume' };
    case 'close':
      return { type: 'close' };
    case 'vessel':
      return { type: 'weigh-vessel', vessel: due.vessel.name };
    case 'lot':
      return { type: 'identify-lot', step: due.n, lot: due.known ?? 'L-1' };
    case 'reading':
    case 'after':
      return readOn(run, due.n);
    case 'residue':
      return { type: 'read', step: due.n, way: 'cup', part: 'residue', typed: '0' };
    case 'over':
      return decideOver(run, due.n);
    case 'slip':
      return { type: 'answer-slip', step: due.n, answer: 'no' };
    case 'witness':
      return { type: 'go-unwitnessed', step: due.n, reason };
    case 'gone':
    case 'overdue':
    case 'measure-out':
      return { type: 'accept', step: due.n, reason };
    case 'tick':
      return { type: 'tick', step: due.n };
    case 'hold':
      return { type: 'start-hold', step: due.n };
    case 'hold-running':
      return { type: 'end-hold', step: due.n, reason };
    case 'measure':
      return { type: 'measure', step: due.n, typed: '40' };
    case 'adjust':
      return { type: 'finish-adjust', step: due.n, reason };
    case 'tally':
      return goOnTally(due.n, due);
  }
};

/** Pours what is missing to the target: after a tare where something is in already. */
const readOn = (run: OpenRun, n: number): Intent => {
  const state = run.steps[n - 1];
  const { target, scale } = run.plan.steps[n - 1]?.addition?.onScale ?? {};
  const capacity = scale?.capacity ?? noMass;
  const d = scale?.readability ?? noMass;
  if (state?.kind !== 'addition' || target === undefined)
    throw new Error(`step ${n} is no addition`);
  const pour = state.pours.at(-1);
  if (pour !== undefined && pour.net.num > 0n) return { type: 'tare', step: n };
  const left = subtract(target, state.total);
  return {
    type: 'read',
    step: n,
    way: 'net',
    part: 'display',
    // What the scale cannot carry at once is weighed in several goes.
    typed: toExact(toMultiple(smaller(left, capacity), d, 'half-even')),
  };
};
