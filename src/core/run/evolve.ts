/**
 * The fold: what is true after one more event. Events carry every fact that was decided; only a remedy
 * that makes the batch bigger judges lines again, by their new windows. An event that does not fit stops
 * the fold with a RangeError, never a guess.
 */
import { planBatch } from '../plan/plan-batch.ts';
import { noMass } from '../quantity/quantity.ts';
import { readSheet } from '../sheet/read-sheet.ts';
import type { Step } from '../sheet/sheet.ts';
import { type Instant, readInstant } from '../time/instant.ts';
import type { Begun, RunEvent, Stamped } from './event.ts';
import { evolveChosen, evolveLeft } from './evolve-remedy.ts';
import { evolveStep } from './evolve-step.ts';
import { massFrom } from './mass-text.ts';
import { readScaleText, readSizeText } from './size-text.ts';
import {
  type Deviation,
  type OpenRun,
  type Run,
  type StepState,
  unbegun,
  type VesselState,
} from './state.ts';

const instantOf = (text: string): Instant => {
  const instant = readInstant(text);
  if (instant === undefined) throw new RangeError(`not an instant: ${text}`);
  return instant;
};

const emptyState = (step: Step): StepState => {
  const base = { status: 'waiting', isOverdueAccepted: false } as const;
  if (step.kind === 'add')
    return {
      ...base,
      kind: 'addition',
      pours: [],
      total: noMass,
      partsDone: 0,
      partFrom: 0,
      isAccepted: false,
      isGone: false,
      isWitnessDue: false,
    };
  if (step.kind === 'measure') return { ...base, kind: 'measure' };
  if (step.kind === 'adjust') return { ...base, kind: 'adjust', entries: [], total: noMass };
  if (step.kind === 'tally') return { ...base, kind: 'tally', entries: [] };
  return { ...base, kind: 'plain' };
};

const ofUncheckedScale = ({ scaleReason }: Begun, { at, by }: Stamped): readonly Deviation[] =>
  scaleReason === undefined
    ? []
    : [{ step: 0, what: 'scale-unchecked', reason: scaleReason, at, by }];

const begin = (event: Begun, stamped: Stamped): OpenRun => {
  const read = readSheet(event.sheet);
  if (!read.ok) throw new RangeError('the batch was begun with a sheet that cannot be read');
  const { plan } = planBatch(read.sheet, readSizeText(event.size), event.scales.map(readScaleText));
  return {
    phase: 'open',
    batch: event.batch,
    practice: event.practice,
    program: event.program,
    sheetText: event.sheet,
    sheet: read.sheet,
    plan,
    begunPlan: plan,
    begunBy: stamped.by,
    begunAt: instantOf(stamped.at),
    person: stamped.by,
    events: [stamped],
    vessels: new Map(),
    lots: new Map(),
    steps: plan.steps.map(planned => emptyState(planned.step)),
    deviations: ofUncheckedScale(event, stamped),
    later: new Set(),
    isPaused: false,
    clockWentBack: [],
  };
};

const withEvent = (run: OpenRun, stamped: Stamped, at: Instant): OpenRun => {
  const before = run.events.at(-1);
  const wentBack = before !== undefined && at.epochMs < instantOf(before.at).epochMs;
  return {
    ...run,
    events: [...run.events, stamped],
    clockWentBack: wentBack ? [...run.clockWentBack, stamped.seq] : run.clockWentBack,
  };
};

const emptyVessel = (tare: string): VesselState => ({
  tare: massFrom(tare),
  contents: noMass,
  isOpen: true,
});

// Once something was poured for it, a remedy is a fact.
const beyondRemedy = (run: OpenRun, { type }: RunEvent): OpenRun => {
  const { remedy, ...rest } = run;
  return remedy === undefined || type === 'lot-identified' ? run : rest;
};

const evolveOpen = (run: OpenRun, stamped: Stamped, at: Instant): Run => {
  const { event } = stamped;
  switch (event.type) {
    case 'begun':
      throw new RangeError('a batch begins once');
    case 'vessel-weighed':
      return {
        ...run,
        vessels: new Map([...run.vessels, [event.vessel, emptyVessel(event.tare)]]),
      };
    case 'put-later':
      return { ...run, later: new Set([...run.later, event.step]) };
    case 'turned-to':
      return { ...run, turnedTo: event.phase };
    case 'noted':
    case 'remedies-offered':
      return run;
    case 'remedy-chosen':
      return evolveChosen(run, event, at);
    case 'remedy-left':
      return evolveLeft(run);
    case 'paused':
      return { ...run, isPaused: true };
    case 'resumed':
      return { ...run, isPaused: false };
    case 'handed-over':
      return { ...run, person: event.to };
    case 'closed':
      return {
        ...run,
        phase: 'closed',
        outcome: event.outcome,
        closedAt: at,
        ...(event.reason === undefined ? {} : { reason: event.reason }),
      };
    default:
      return evolveStep(beyondRemedy(run, event), event, stamped, at);
  }
};

/** The next state. Throws a RangeError for an event that cannot follow: replay stops there. */
export const evolve = (run: Run, stamped: Stamped): Run => {
  const { event } = stamped;
  if (run.phase === 'unbegun') {
    if (event.type !== 'begun')
      throw new RangeError('the first event of a batch is that it was begun');
    return begin(event, stamped);
  }
  if (run.phase === 'closed') throw new RangeError('nothing follows the end of a batch');
  const at = instantOf(stamped.at);
  return evolveOpen(withEvent(run, stamped, at), stamped, at);
};

/** Folds all events from the beginning. */
export const replay = (events: readonly Stamped[]): Run =>
  events.reduce<Run>((run, stamped) => evolve(run, stamped), unbegun);
