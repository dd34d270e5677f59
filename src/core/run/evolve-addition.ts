import { add } from '../quantity/quantity.ts';
import type { Instant } from '../time/instant.ts';
import type { ReadingTaken, StepEvent, TakenBack } from './event.ts';
import { plannedStep } from './focus.ts';
import { isResidueDue, presentPour } from './judge.ts';
import { massFrom } from './mass-text.ts';
import { betweenPours, isReadInto, withNewPour, withPours } from './pours.ts';
import type { AdditionState, LastReading, OpenRun, Pour, StandingReading } from './state.ts';

export interface When {
  readonly seq: number;
  readonly at: Instant;
}

// A later display takes the place of all that was read of the pour before.
const readingsOf = (
  { before }: AdditionState,
  { readings }: Pour,
  { seq, part, reading }: LastReading,
): readonly StandingReading[] => {
  const read = { seq, part, mass: reading.mass };
  if (part === 'residue') return [...readings.filter(each => each.part === 'display'), read];
  return part === 'after' && before !== undefined ? [before, read] : [read];
};

const pouredTo = (
  state: AdditionState,
  read: LastReading,
  net: string,
  lifted: string,
): AdditionState => {
  const last = presentPour(state);
  const pour = {
    ...last,
    readings: readingsOf(state, last, read),
    readAt: read.seq,
    net: massFrom(net),
    waste: add(last.waste, massFrom(lifted)),
  };
  return withPours(state, [...state.pours.slice(0, -1), pour]);
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

/** Done if it is in its window, or waiting for what makes its reading final. */
export const settled = (
  run: OpenRun,
  n: number,
  state: AdditionState,
  when: When,
): AdditionState => {
  const { addition } = plannedStep(run, n);
  if (state.verdict !== 'in' || addition === undefined) return state;
  const last = state.lastReading;
  // The residue is what makes a cup's reading final.
  if (
    last?.way === 'cup' &&
    last.part === 'display' &&
    isReadInto(presentPour(state), last.seq) &&
    isResidueDue(addition)
  ) {
    return { ...state, cup: last.reading.mass };
  }
  return finished(run, n, state, when.at);
};

const readOf = (event: ReadingTaken | TakenBack, seq: number): LastReading => {
  const { way, reading } = event;
  const afterLifting = way === 'difference' ? 'after' : 'display';
  return { seq, way, part: event.type === 'taken-back' ? afterLifting : event.part, reading };
};

const afterReading = (
  run: OpenRun,
  state: AdditionState,
  event: ReadingTaken | TakenBack,
  when: When,
): AdditionState => {
  const read = readOf(event, when.seq);
  // Judged anew, whatever was settled before.
  const running: AdditionState = {
    ...state,
    status: 'running',
    lastReading: read,
    isAccepted: false,
    isWitnessDue: false,
  };
  if (event.judged === undefined) {
    const { seq, part, reading } = read;
    return { ...running, before: { seq, part, mass: reading.mass } };
  }
  const { net, verdict, part } = event.judged;
  const poured = pouredTo(running, read, net, event.type === 'taken-back' ? event.lifted : '0');
  const kept = read.part === 'display' ? betweenPours(poured) : poured;
  const judged = { ...kept, verdict, ...(part === undefined ? {} : { partVerdict: part }) };
  return settled(run, event.step, judged, when);
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
      return afterReading(run, state, event, when);
    case 'accepted':
      return finished(
        run,
        event.step,
        { ...betweenPours(state), isAccepted: true, isGone: false },
        when.at,
      );
    case 'slip-answered':
      return { ...state, slipAnswered: event.about };
    case 'unwitnessed':
    case 'witnessed':
      return { ...state, isWitnessDue: false, status: 'done', doneAt: when.at };
    default:
      throw new RangeError(`${event.type} does not fit an addition`);
  }
};
