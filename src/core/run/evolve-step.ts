/** What one event does to its step, to the vessel and to the list of deviations. */
import { add, noMass, subtract } from '../quantity/quantity.ts';
import type { Instant } from '../time/instant.ts';
import { deviationOf } from './deviation.ts';
import type { Stamped, StepEvent } from './event.ts';
import { evolveAddition, type When } from './evolve-addition.ts';
import { evolveAmended, vesselAmended } from './evolve-amended.ts';
import { plannedStep, stepState, totalOf, vesselNameOf } from './focus.ts';
import { massFrom } from './mass-text.ts';
import type { AdjustState, OpenRun, StepState, VesselState } from './state.ts';
import { isTallyDone } from './tally.ts';

const done = <S extends StepState>(state: S, at: Instant): S => ({
  ...state,
  status: 'done',
  doneAt: at,
});

const ofAdjust = (state: AdjustState, event: StepEvent, at: Instant): StepState => {
  if (event.type === 'lot-identified') return { ...state, status: 'running', lot: event.lot };
  if (event.type === 'adjust-finished') return done(state, at);
  if (event.type !== 'adjusted') throw new RangeError(`${event.type} does not fit an adjustment`);
  const { typed, mass, lot } = event;
  const entry = { typed, mass: massFrom(mass), ...(lot === undefined ? {} : { lot }) };
  return {
    ...state,
    status: 'running',
    entries: [...state.entries, entry],
    total: add(state.total, entry.mass),
  };
};

const ofAccepted = (
  state: StepState,
  what: 'under' | 'over' | 'out-of-limits' | 'overdue',
  at: Instant,
): StepState => (what === 'overdue' ? { ...state, isOverdueAccepted: true } : done(state, at));

const ofPlain = (state: StepState, event: StepEvent, at: Instant): StepState => {
  switch (event.type) {
    case 'ticked':
    case 'hold-ended':
      return done(state, at);
    case 'hold-started':
      return { ...state, status: 'running', startedAt: at };
    default:
      throw new RangeError(`${event.type} does not fit step ${event.step}`);
  }
};

const stateAfter = (run: OpenRun, event: StepEvent, when: When): StepState => {
  const { at } = when;
  const state = stepState(run, event.step);
  if (event.type === 'accepted' && (event.what === 'overdue' || state.kind !== 'addition')) {
    return ofAccepted(state, event.what, at);
  }
  if (state.kind === 'addition') {
    if (event.type === 'amended') return evolveAmended(run, state, event, when);
    return evolveAddition(run, state, event, when);
  }
  if (state.kind === 'adjust') return ofAdjust(state, event, at);
  if (state.kind === 'measure' && event.type === 'measured') {
    const { typed, value, verdict } = event;
    const read = { ...state, status: 'running', typed, value, verdict } as const;
    return verdict === 'in' ? done(read, at) : read;
  }
  const { step } = plannedStep(run, event.step);
  if (state.kind === 'tally' && step.kind === 'tally' && event.type === 'tallied') {
    const { item, value, reason } = event;
    const entries = [
      ...state.entries,
      { item, value, ...(reason === undefined ? {} : { reason }) },
    ];
    const counted = { ...state, status: 'running', entries } as const;
    return isTallyDone(step, entries) ? done(counted, at) : counted;
  }
  return ofPlain(state, event, at);
};

const changed = (
  vessels: ReadonlyMap<string, VesselState>,
  name: string | undefined,
  change: (vessel: VesselState) => VesselState,
): ReadonlyMap<string, VesselState> => {
  const vessel = name === undefined ? undefined : vessels.get(name);
  return name === undefined || vessel === undefined
    ? vessels
    : new Map([...vessels, [name, change(vessel)]]);
};

const ticked = (run: OpenRun, n: number): ReadonlyMap<string, VesselState> => {
  const { step } = plannedStep(run, n);
  const touched = changed(run.vessels, vesselNameOf(run, n), vessel => ({
    ...vessel,
    lastStep: n,
  }));
  if (step.kind === 'tip') {
    const moved = touched.get(step.from)?.contents ?? noMass;
    const emptied = changed(touched, step.from, vessel => ({
      ...vessel,
      contents: noMass,
      tippedInto: step.into,
      lastStep: n,
    }));
    return changed(emptied, step.into, vessel => ({
      ...vessel,
      contents: add(vessel.contents, moved),
      lastStep: n,
    }));
  }
  return step.kind === 'do' && step.empties !== undefined
    ? changed(touched, step.empties, vessel => ({
        ...vessel,
        contents: noMass,
        isOpen: false,
        lastStep: n,
      }))
    : touched;
};

const vesselsAfter = (run: OpenRun, event: StepEvent, after: StepState) => {
  if (event.type === 'ticked') return ticked(run, event.step);
  const change = subtract(totalOf(after), totalOf(stepState(run, event.step)));
  if (change.num === 0n) return run.vessels;
  if (event.type === 'amended') {
    return changed(run.vessels, vesselAmended(run, event), vessel => ({
      ...vessel,
      contents: add(vessel.contents, change),
    }));
  }
  return changed(run.vessels, vesselNameOf(run, event.step), vessel => ({
    ...vessel,
    contents: add(vessel.contents, change),
    lastStep: event.step,
  }));
};

/** The run after an event that belongs to one step. */
export const evolveStep = (
  run: OpenRun,
  event: StepEvent,
  stamped: Stamped,
  at: Instant,
): OpenRun => {
  const after = stateAfter(run, event, { seq: stamped.seq, at });
  const deviation = deviationOf(run, event, stamped, at);
  const phase = plannedStep(run, event.step).phase;
  // What an amendment opens again comes first.
  const isReopened = event.type === 'amended' && after.status !== 'done' && phase !== undefined;
  return {
    ...run,
    ...(isReopened ? { turnedTo: phase } : {}),
    steps: run.steps.map((state, index) => (index === event.step - 1 ? after : state)),
    vessels: vesselsAfter(run, event, after),
    lots:
      event.type === 'lot-identified'
        ? new Map([...run.lots, [event.material, event.lot]])
        : run.lots,
    deviations: deviation === undefined ? run.deviations : [...run.deviations, deviation],
  };
};
