import { add, isZero, type Mass, times } from '../../../core/quantity/quantity.ts';
import type { AdditionText } from '../../../core/result/record.ts';
import type { ScaleText } from '../../../core/run/event.ts';
import type { RemedyText } from '../../../core/run/remedy-event.ts';
import type { Deviation } from '../../../core/run/state.ts';
import type { Sheet, Step } from '../../../core/sheet/sheet.ts';
import type { Entry, EntryOf } from './entry.ts';
import { massFrom } from './exact-text.ts';
import type { NumberedStep, PlanAgain } from './plan-again.ts';
import { type Weighing, type Window, weighingOf } from './weighing.ts';

/** The members of an event that can be worked out; undefined where it must have none. */
export type Expected = Readonly<Record<string, unknown>>;

interface Adjustment {
  readonly mass: Mass;
  readonly lot?: string;
}

export interface VesselNow {
  readonly tare: Mass;
  readonly contents: Mass;
  /** The last step that put something in, took something out or did something with it. */
  readonly lastStep?: number;
}

/** What a remedy changes, and what is put back when it is left. */
interface Sized {
  /** By the number of the step, as are all maps but the vessels. */
  weighings: Map<number, Weighing>;
  /** Of steps of which nothing is left to do or to decide: since when. */
  doneAt: Map<number, string>;
  lots: Map<number, string>;
  /** The most of each adjust step, at the present size. */
  mosts: ReadonlyMap<number, Mass>;
  /** Whole pieces at the present size. */
  pieces: number;
}

/** What the events add up to so far. The one value here that changes: `replay` fills it in order. */
export interface Replayed extends Sized {
  readonly sheet: Sheet;
  /** As the batch was begun. */
  readonly plan: PlanAgain;
  readonly scales: readonly ScaleText[];
  readonly vessels: Map<string, VesselNow>;
  /** Which vessel each one was tipped into. */
  readonly tipped: Map<string, string>;
  readonly adjusted: Map<number, readonly Adjustment[]>;
  readonly measured: Map<number, string>;
  readonly holdStarted: Map<number, string>;
  /** What was offered in the event just before; absent after any other event. */
  offered?: { readonly step: number; readonly remedies: readonly RemedyText[] } | undefined;
  /** The line over its window that surely is in hand: it was just said of it that it was not read wrongly. */
  overInHand?: number | undefined;
  /** A chosen remedy of which nothing was poured yet, with what was true before it. */
  remedy?: { readonly step: number; readonly before: Sized } | undefined;
  readonly tallied: EntryOf<'tallied'>[];
  readonly deviations: Deviation[];
  readonly people: Set<string>;
  /** The last entry by which something went in. */
  lastAddition?: Entry;
}

/** The windows of several weighings; none where one is enough. */
export const partWindows = (text: Pick<AdditionText, 'parts'> | undefined): readonly Window[] =>
  (text?.parts ?? []).map(({ windowLow, windowHigh }) => ({
    low: massFrom(windowLow),
    high: massFrom(windowHigh),
  }));

export const emptyReplay = (sheet: Sheet, plan: PlanAgain): Replayed => ({
  sheet,
  plan,
  scales: plan.text.scales,
  vessels: new Map(),
  tipped: new Map(),
  weighings: new Map(
    [...plan.lines].map(([step, line]) => [
      step,
      weighingOf(line, partWindows(plan.text.additions[line.n - 1])),
    ]),
  ),
  doneAt: new Map(),
  lots: new Map(),
  mosts: new Map(
    plan.steps.flatMap(({ n, step }) =>
      step.kind === 'adjust' ? [[n, times(step.most.mass, plan.factor)]] : [],
    ),
  ),
  pieces: plan.pieces,
  adjusted: new Map(),
  measured: new Map(),
  holdStarted: new Map(),
  tallied: [],
  deviations: [],
  people: new Set(),
});

export const stepNumbered = ({ plan }: Replayed, n: number): NumberedStep => {
  const found = plan.steps[n - 1];
  if (found === undefined) throw new RangeError(`the sheet has no step ${n}`);
  return found;
};

/** The step of that number if it is of that kind. Throws a RangeError if not. */
export const stepOfKind = <K extends Step['kind']>(
  replayed: Replayed,
  n: number,
  kind: K,
): Extract<Step, { readonly kind: K }> => {
  const { step } = stepNumbered(replayed, n);
  if (!isOfKind(step, kind)) throw new RangeError(`step ${n} is no ${kind} step`);
  return step;
};

const isOfKind = <K extends Step['kind']>(
  step: Step,
  kind: K,
): step is Extract<Step, { readonly kind: K }> => step.kind === kind;

export const weighingAt = ({ weighings }: Replayed, n: number): Weighing => {
  const found = weighings.get(n);
  if (found === undefined) throw new RangeError(`nothing is weighed at step ${n}`);
  return found;
};

/** The vessel of a step's phase or, once that was tipped, the one that took its contents. */
export const vesselAt = (replayed: Replayed, n: number): string => {
  let name = stepNumbered(replayed, n).phase?.vessel.name ?? '';
  for (let into = replayed.tipped.get(name); into !== undefined; into = replayed.tipped.get(name))
    name = into;
  return name;
};

/** More in the vessel of a step, or less. Throws a RangeError where it was not weighed. */
export const putIn = (replayed: Replayed, n: number, change: Mass): void => {
  const name = vesselAt(replayed, n);
  const vessel = replayed.vessels.get(name);
  if (vessel === undefined) throw new RangeError('the vessel was not weighed');
  if (isZero(change)) return;
  replayed.vessels.set(name, {
    ...vessel,
    contents: add(vessel.contents, change),
    lastStep: n,
  });
};

/** The scale on which the plan has a step weighed. */
export const scaleAt = ({ plan, scales }: Replayed, n: number): ScaleText => {
  const planned = plan.text.additions.find(each => each.step === n);
  const scale = scales.find(each => each.name === planned?.scale);
  if (scale === undefined) throw new RangeError(`no scale weighs step ${n}`);
  return scale;
};
