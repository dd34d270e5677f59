/** Intents before the first reading: the empty vessel, the lot. */
import { toExact } from '../quantity/decimal.ts';
import { isPositive } from '../quantity/quantity.ts';
import { type Context, type Decision, follow, refuse } from './decision.ts';
import { plannedStep } from './focus.ts';
import type { IntentOf } from './intent.ts';
import { isTareFarOff, scaleOfVessel } from './judge.ts';
import { readTyped } from './poured.ts';
import type { OpenRun } from './state.ts';
import { outOfTurn } from './turn.ts';

// A vessel that is too heavy for the scale of its lines stands on another one.
const readTare = (run: OpenRun, vessel: string, typed: string) => {
  const read = readTyped(typed, scaleOfVessel(run, vessel));
  return read.ok || read.refusal.code !== 'over-capacity'
    ? read
    : (run.plan.scales.map(scale => readTyped(typed, scale)).find(each => each.ok) ?? read);
};

export const weighVessel = (
  run: OpenRun,
  { vessel, typed, confirmed }: IntentOf<'weigh-vessel'>,
): Decision => {
  const stated = run.plan.phases.find(phase => phase.vessel.name === vessel)?.vessel;
  if (stated === undefined || run.vessels.has(vessel)) {
    return refuse(
      'vessel-known',
      `${vessel} is weighed already, or not of this sheet.`,
      'Go on with the step in hand.',
    );
  }
  if (typed === undefined) {
    return stated.tare === undefined
      ? refuse(
          'bad-reading',
          'The sheet gives no tare for it.',
          'Put it on the scale empty and type the display.',
        )
      : follow({ type: 'vessel-weighed', vessel, tare: toExact(stated.tare) });
  }
  const read = readTare(run, vessel, typed);
  if (!read.ok) return read;
  const { mass } = read.value;
  if (!isPositive(mass))
    return refuse(
      'nothing-read',
      'An empty vessel weighs something.',
      'Zero the scale, then put the vessel on it.',
    );
  if (stated.tare !== undefined && isTareFarOff(mass, stated.tare) && confirmed !== true) {
    return refuse(
      'tare-far-off',
      'That is more than 1 % off the tare that the sheet states.',
      'Check that it is the right vessel, empty and dry.',
    );
  }
  return follow({ type: 'vessel-weighed', vessel, tare: toExact(mass), reading: read.value.typed });
};

/** A lot number: one line of at most 40 printable characters. */
const readLot = (text: string): string | undefined => {
  const lot = text.trim();
  return lot.length <= 40 && /^[^\p{C}\p{Zl}\p{Zp}\uFFFD]+$/u.test(lot) ? lot : undefined;
};

export const identifyLot = (
  run: OpenRun,
  { step, lot }: IntentOf<'identify-lot'>,
  context: Context,
): Decision => {
  const refusal = outOfTurn(run, step, context, ['lot', 'reading', 'after', 'adjust']);
  if (refusal !== undefined) return refusal;
  const planned = plannedStep(run, step).step;
  if (planned.kind !== 'add' && planned.kind !== 'adjust') {
    return refuse('wrong-kind', 'This step takes no lot.', 'Answer what it asks.');
  }
  if (run.sheet.materials.get(planned.material)?.hasLots === false) {
    return refuse('lot-known', 'No lot is asked for here.', 'Type the reading.');
  }
  const number = readLot(lot);
  return number === undefined
    ? refuse(
        'bad-lot',
        'That cannot be a lot number.',
        'Type or scan the lot number, at most 40 characters.',
      )
    : follow({ type: 'lot-identified', step, material: planned.material, lot: number });
};
