import { add, noMass, sum } from '../quantity/quantity.ts';
import type { Instant } from '../time/instant.ts';
import type { Amended, ReadingTaken, StepEvent, TakenBack } from './event.ts';
import { plannedStep } from './focus.ts';
import { isResidueDue } from './judge.ts';
import { massFrom } from './mass-text.ts';
import { betweenPours, emptyPour, withNewPour } from './pours.ts';
import type { AdditionState, LastReading, OpenRun } from './state.ts';

export interface When {
  readonly seq: number;
  readonly at: Instant;
}

const pouredTo = (state: AdditionState, net: string, lifted: string): AdditionState => {
  const last = state.pours.at(-1) ?? emptyPour(undefined);
  const pour = { ...last, net: massFrom(net), waste: add(last.waste, massFrom(lifted)) };
  const pours = [...state.pours.slice(0, -1), pour];
  return {
    ...state,
    pours,
    total: sum(
      noMass,
      pours.map(each => each.net),
    ),
  };
};

const isWitnessed = (run: OpenRun, n: number): boolean => plannedStep(run, n).step.witness;

/** Done, or waiting for its witness. */
export const finished = (
  run: OpenRun,
  n: number,
  state: AdditionState,
  at: Instant,
): AdditionState =>
  isWitnessed(run, n) ? { ...state, isWitnessDue: true } : { ...state, status: 'done', doneAt: at };

const settled = (run: OpenRun, n: number, state: AdditionState, when: When): AdditionState => {
  const { addition } = plannedStep(run, n);
  if (state.verdict !== 'in' || addition === undefined) return state;
  const last = state.lastReading;
  // The residue is what makes a cup's reading final.
  if (last?.way === 'cup' && last.part === 'display' && isResidueDue(addition)) {
    return { ...state, cup: last.reading.mass };
  }
  return finished(run, n, state, when.at);
};

const afterReading = (
  run: OpenRun,
  state: AdditionState,
  event: ReadingTaken | TakenBack | Amended,
  read: LastReading,
  when: When,
): AdditionState => {
  // Judged anew, whatever was settled before.
  const running: AdditionState = {
    ...state,
    status: 'running',
    lastReading: read,
    isAccepted: false,
    isWitnessDue: false,
  };
  if (event.judged === undefined) return { ...running, before: read.reading.mass };
  const { net, verdict, part } = event.judged;
  const poured = pouredTo(running, net, event.type === 'taken-back' ? event.lifted : '0');
  const kept = read.part === 'display' ? betweenPours(poured) : poured;
  const judged = { ...kept, verdict, ...(part === undefined ? {} : { partVerdict: part }) };
  return settled(run, event.step, judged, when);
};

const readOf = (
  state: AdditionState,
  event: ReadingTaken | TakenBack | Amended,
  seq: number,
): LastReading => {
  if (event.type !== 'amended') {
    const part =
      event.type === 'reading-taken'
        ? event.part
        : event.way === 'difference'
          ? 'after'
          : 'display';
    return { seq, way: event.way, part, reading: event.reading };
  }
  if (state.lastReading === undefined) throw new RangeError('nothing to amend');
  return { ...state.lastReading, seq, reading: event.reading };
};

/** The state of an addition after one of its events. */
export const evolveAddition = (
  run: OpenRun,
  state: AdditionState,
  event: StepEvent,
  when: When,
): AdditionState => {
  switch (event.type) {
    case 'lot-identified':
      return { ...withNewPour(state, event.lot), status: 'running' };
    case 'tared':
      return withNewPour(state, state.pours.at(-1)?.lot);
    case 'reading-taken':
    case 'taken-back':
    case 'amended':
      return afterReading(run, state, event, readOf(state, event, when.seq), when);
    case 'accepted':
      return finished(run, event.step, { ...betweenPours(state), isAccepted: true }, when.at);
    case 'slip-answered':
      return { ...state, slipAnswered: event.about };
    case 'unwitnessed':
    case 'witnessed':
      return { ...state, isWitnessDue: false, status: 'done', doneAt: when.at };
    default:
      throw new RangeError(`${event.type} does not fit an addition`);
  }
};
