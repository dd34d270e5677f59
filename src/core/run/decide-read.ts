/** Intents that bring a reading of an addition. */
import { toExact } from '../quantity/decimal.ts';
import {
  isLess,
  isMore,
  isNegative,
  isPositive,
  isZero,
  type Mass,
  subtract,
} from '../quantity/quantity.ts';
import { showMass } from '../quantity/show.ts';
import { offeredInHand } from './decide-remedy.ts';
import { type Context, type Decision, follow, refuse } from './decision.ts';
import type { Way } from './event.ts';
import { vesselNow } from './focus.ts';
import type { IntentOf, ReadingIntent } from './intent.ts';
import { canTakeBack, judge, netOf, presentPour } from './judge.ts';
import { noScale, type Poured, pouredInto, readTyped } from './poured.ts';
import { isPartDone, withNewPour } from './pours.ts';
import type { AdditionState, OpenRun } from './state.ts';
import { outOfTurn } from './turn.ts';

const checkNet = (
  net: Mass,
  { state, scale }: Poured,
  part: ReadingIntent['part'],
): Decision | undefined => {
  if (isNegative(net))
    return refuse(
      'negative-net',
      'That would be less than nothing.',
      'Check what stands on the scale, and the way of reading.',
    );
  if (isZero(net) && part !== 'residue')
    return refuse('nothing-read', 'Nothing would be in.', 'Pour, then type what the scale shows.');
  const { net: before } = presentPour(state);
  if (part === 'residue' || isMore(net, before)) return undefined;
  return refuse(
    'reading-fell',
    isLess(net, before)
      ? `The net fell from ${showMass(before, scale)} to ${showMass(net, scale)}.`
      : `The net is ${showMass(net, scale)} as before.`,
    'If the scale was tared in between, or a cup was tipped in, type tare first. If the last reading was mistyped, type mistyped.',
  );
};

const checkPart = (state: AdditionState, { way, part }: ReadingIntent): Decision | undefined => {
  const isDifference = part === 'before' || part === 'after';
  if (isDifference !== (way === 'difference') || (part === 'residue' && way !== 'cup')) {
    return refuse(
      'wrong-part',
      'That number does not belong to this way of reading.',
      'Answer what is asked.',
    );
  }
  if (part === 'residue' && state.cup === undefined) {
    return refuse('wrong-part', 'No cup was weighed before it.', 'Weigh the full cup first.');
  }
  return part === 'after' && state.before === undefined
    ? refuse(
        'wrong-part',
        'The container was not weighed before.',
        'Weigh the container before pouring.',
      )
    : undefined;
};

// What comes after a weighed residue is poured into a cup that is tared anew.
// So is what is read in another way: there the number starts from what is in already.
const isPourOver = (state: AdditionState, way: Way): boolean =>
  state.lastReading?.part === 'residue' ||
  isPartDone(state) ||
  (state.lastReading !== undefined && state.lastReading.way !== way);

const taredBy = (state: AdditionState, { step, way, part }: ReadingIntent) =>
  isPourOver(state, way) &&
  part !== 'residue' &&
  part !== 'after' &&
  !isZero(presentPour(state).net)
    ? [{ type: 'tared', step } as const]
    : [];

// A cup or container that is put back weighs something, or nothing beyond its tare.
const checkPutBack = (shown: Mass, part: ReadingIntent['part']): Decision | undefined =>
  isNegative(shown) && (part === 'after' || part === 'residue')
    ? refuse(
        'negative-net',
        'What is put back on the scale cannot weigh less than nothing.',
        part === 'residue'
          ? 'Type 0 when nothing sticks to the cup.'
          : 'Zero the scale, then put the container back on it.',
      )
    : undefined;

export const read = (run: OpenRun, intent: IntentOf<'read'>, context: Context): Decision => {
  const { step, way, part } = intent;
  const refusal = outOfTurn(
    run,
    step,
    context,
    part === 'residue' ? ['residue'] : ['reading', 'after'],
  );
  if (refusal !== undefined) return refusal;
  const poured = pouredInto(run, step);
  if (poured === undefined) return noScale();
  const { addition, scale } = poured;
  const tared = taredBy(poured.state, intent);
  const state: AdditionState =
    tared.length === 0 ? poured.state : withNewPour(poured.state, presentPour(poured.state).lot);
  const number = checkPart(state, intent) ?? readTyped(intent.typed, scale);
  if (!('value' in number)) return number;
  const { mass, typed } = number.value;
  const lot = presentPour(state).lot;
  const base = {
    type: 'reading-taken',
    step,
    way,
    part,
    reading: typed,
    vessel: vesselNow(run, addition.vessel),
    ...(lot === undefined ? {} : { lot }),
  } as const;
  const net = netOf(run, addition, state, { way, part, shown: mass });
  if (net === undefined) {
    return isPositive(mass)
      ? follow(...tared, base)
      : refuse(
          'nothing-read',
          'The container weighs something.',
          'Put it on the scale and type the display.',
        );
  }
  return (
    checkPutBack(mass, part) ??
    checkNet(net, { addition, state, scale }, part) ??
    follow(...tared, { ...base, judged: judge(addition, state, net) })
  );
};

export const tare = (run: OpenRun, { step }: IntentOf<'tare'>, context: Context): Decision => {
  const refusal = outOfTurn(run, step, context, ['reading', 'after']);
  if (refusal !== undefined) return refusal;
  const poured = pouredInto(run, step);
  if (poured === undefined) return noScale();
  return isZero(presentPour(poured.state).net)
    ? refuse(
        'nothing-read',
        'Nothing was read since the last tare.',
        'Tare the scale, pour, then type the display.',
      )
    : follow({ type: 'tared', step });
};

const checkTakeBack = (run: OpenRun, { addition, state }: Poured): Decision | undefined =>
  canTakeBack(run, addition, state)
    ? undefined
    : refuse(
        'cannot-take-back',
        'Something else went into the vessel since.',
        'Accept it with a reason, or scrap the batch.',
      );

export const takeBack = (
  run: OpenRun,
  intent: IntentOf<'take-back'>,
  context: Context,
): Decision => {
  const { step, way } = intent;
  const refusal = outOfTurn(run, step, context, ['over']);
  if (refusal !== undefined) return refusal;
  const poured = pouredInto(run, step);
  if (poured === undefined) return noScale();
  const { addition, state, scale } = poured;
  const number =
    checkTakeBack(run, poured) ?? checkPart(state, intent) ?? readTyped(intent.typed, scale);
  if (!('value' in number)) return number;
  const net = netOf(run, addition, state, { way, part: intent.part, shown: number.value.mass });
  const before = presentPour(state).net;
  if (net === undefined || isNegative(net)) {
    return refuse(
      'negative-net',
      'That would be less than nothing.',
      'Type what the scale shows now.',
    );
  }
  return isLess(net, before)
    ? follow(...offeredInHand(run, context), {
        type: 'taken-back',
        step,
        way,
        reading: number.value.typed,
        lifted: toExact(subtract(before, net)),
        judged: judge(addition, state, net),
      })
    : refuse(
        'nothing-read',
        'That is not less than before.',
        'Lift some out, then type what the scale shows now.',
      );
};
