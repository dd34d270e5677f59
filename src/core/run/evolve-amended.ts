/** An addition after one of its readings was put right. */
import type { Amended } from './event.ts';
import { settled, type When } from './evolve-addition.ts';
import { presentPour } from './judge.ts';
import { massFrom } from './mass-text.ts';
import { betweenPours, isReadInto, withPours } from './pours.ts';
import { situationOf } from './situation-of-run.ts';
import { standingReadings, whereaboutsOf } from './standing-reading.ts';
import type { AdditionState, LastReading, OpenRun, Pour, StandingReading } from './state.ts';

const standingIn = (run: OpenRun, { amends }: Amended) => {
  const found = standingReadings(run).find(({ reading }) => reading.seq === amends);
  if (found === undefined) throw new RangeError('nothing to amend');
  return found;
};

const corrected = (state: AdditionState, event: Amended, seq: number): AdditionState => {
  const { amends, reading, judged } = event;
  const put = (read: StandingReading): StandingReading =>
    read.seq === amends ? { ...read, seq, mass: reading.mass } : read;
  const inPour = (pour: Pour): Pour =>
    judged !== undefined && isReadInto(pour, amends)
      ? { ...pour, readings: pour.readings.map(put), net: massFrom(judged.net) }
      : pour;
  const lastReading: LastReading | undefined =
    state.lastReading?.seq === amends ? { ...state.lastReading, seq, reading } : state.lastReading;
  return {
    ...withPours(state, state.pours.map(inPour)),
    ...(state.before === undefined ? {} : { before: put(state.before) }),
    ...(lastReading === undefined ? {} : { lastReading }),
  };
};

/** Whether the vessel of that step was emptied since something went in. */
export const isClosed = (run: OpenRun, step: number): boolean => {
  const n = run.plan.steps[step - 1]?.addition?.n;
  return situationOf(run).lines.some(line => line.n === n && line.isClosed);
};

/** Judged anew: a line that was done stays done while it is in its window, and is open again else. */
export const evolveAmended = (
  run: OpenRun,
  state: AdditionState,
  event: Amended,
  when: When,
): AdditionState => {
  const { judged } = event;
  const read = corrected(state, event, when.seq);
  if (judged === undefined) return read;
  const { verdict } = judged;
  const { lastReading: last } = read;
  const isLast = last?.seq === when.seq && last.part === 'display';
  const again: AdditionState = {
    ...(isLast ? betweenPours(read) : read),
    verdict,
    ...(judged.part !== undefined && isReadInto(presentPour(read), when.seq)
      ? { partVerdict: judged.part }
      : {}),
    isAccepted: false,
    isWitnessDue: false,
    isGone: false,
  };
  if (state.status === 'done') {
    const { doneAt: _doneAt, ...open } = again;
    return verdict === 'in'
      ? again
      : { ...open, status: 'running', isGone: isClosed(run, event.step) };
  }
  return settled(run, event.step, { ...again, status: 'running' }, when);
};

/** The vessel that holds now what that reading measured; undefined once it was emptied out. */
export const vesselAmended = (run: OpenRun, event: Amended): string | undefined => {
  const { step, pour } = standingIn(run, event);
  return pour && whereaboutsOf(run, step, pour).vessel;
};
