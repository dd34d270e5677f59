/** Putting a mistyped reading right. */
import { isNegative } from '../quantity/quantity.ts';
import { type Decision, follow, readReason, reasonMissing, refuse } from './decision.ts';
import type { RunEvent } from './event.ts';
import { vesselNow } from './focus.ts';
import type { Intent } from './intent.ts';
import { judge, netOf } from './judge.ts';
import { type Poured, pouredInto, readTyped } from './poured.ts';
import type { LastReading, OpenRun } from './state.ts';

const notAmendable = (message: string): Decision =>
  refuse('not-amendable', message, 'Write it down with note.');

const eventAt = (run: OpenRun, seq: number): RunEvent | undefined =>
  run.events.find(each => each.seq === seq)?.event;

/** Whether the scale was tared, or another lot taken, after that reading: its pour is closed then. */
const isPourClosed = (run: OpenRun, step: number, seq: number): boolean =>
  run.events.some(
    each =>
      each.seq > seq &&
      (each.event.type === 'tared' || each.event.type === 'lot-identified') &&
      each.event.step === step,
  );

// What a gross reading means depends on all that stood on the scale when it was read.
const isGrossLost = (run: OpenRun, { addition }: Poured, { way }: LastReading): boolean =>
  way === 'gross' && run.vessels.get(vesselNow(run, addition.vessel))?.lastStep !== addition.step;

const checkAmendable = (run: OpenRun, poured: Poured, last: LastReading): Decision | undefined => {
  if (eventAt(run, last.seq)?.type === 'taken-back') {
    return notAmendable('What was taken back cannot be amended in this version.');
  }
  return isPourClosed(run, poured.addition.step, last.seq) || isGrossLost(run, poured, last)
    ? notAmendable('Something was tared, taken or poured since that reading.')
    : undefined;
};

/** Only the last reading of an addition that is not done, and only while its pour is the present one. */
export const amend = (
  run: OpenRun,
  { seq, typed, reason }: Intent & { readonly type: 'amend' },
): Decision => {
  const event = eventAt(run, seq);
  const step = event !== undefined && 'step' in event ? event.step : undefined;
  const poured = step === undefined ? undefined : pouredInto(run, step);
  const last = poured?.state.lastReading;
  if (step === undefined || poured?.state.status === 'done' || last?.seq !== seq || !poured) {
    return notAmendable(
      'Only the last reading of the addition in hand can be amended in this version.',
    );
  }
  const { addition, state, scale } = poured;
  const number = checkAmendable(run, poured, last) ?? readTyped(typed, scale);
  if (!('value' in number)) return number;
  const given = readReason(reason);
  if (given === undefined) return reasonMissing();
  const { mass: shown, typed: reading } = number.value;
  const net = netOf(run, addition, state, { way: last.way, part: last.part, shown });
  if (isNegative(net ?? shown))
    return refuse(
      'negative-net',
      'That would be less than nothing.',
      'Type what the scale showed.',
    );
  const base = { type: 'amended', step, amends: seq, reading, reason: given } as const;
  return follow(net === undefined ? base : { ...base, judged: judge(addition, state, net) });
};
