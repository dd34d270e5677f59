import { add, type Mass } from '../../../core/quantity/quantity.ts';
import type { ScaleText } from '../../../core/run/event.ts';
import type { Deviation } from '../../../core/run/state.ts';
import type { Sheet, Step } from '../../../core/sheet/sheet.ts';
import type { Entry, EntryOf } from './entry.ts';
import type { NumberedStep, PlanAgain } from './plan-again.ts';
import { type Weighing, weighingOf } from './weighing.ts';

/** The members of an event that can be worked out; undefined where it must have none. */
export type Expected = Readonly<Record<string, unknown>>;

interface Adjustment {
  readonly mass: Mass;
  readonly lot?: string;
}

/** What the events add up to so far. The one value here that changes: `replay` fills it in order. */
export interface Replayed {
  readonly sheet: Sheet;
  readonly plan: PlanAgain;
  readonly scales: readonly ScaleText[];
  readonly vessels: Map<string, { readonly tare: Mass; readonly contents: Mass }>;
  /** By the number of the step, as are the maps below. */
  readonly weighings: Map<number, Weighing>;
  readonly adjusted: Map<number, readonly Adjustment[]>;
  readonly measured: Map<number, string>;
  readonly lots: Map<number, string>;
  readonly holdStarted: Map<number, string>;
  /** When something last happened in a step. */
  readonly lastAt: Map<number, string>;
  /** Steps of which nothing is left to do or to decide. */
  readonly done: Set<number>;
  /** Steps that went on without the witness they ask for. */
  readonly unwitnessed: Set<number>;
  readonly tallied: EntryOf<'tallied'>[];
  readonly deviations: Deviation[];
  readonly people: Set<string>;
  /** The last entry by which something went in. */
  lastAddition?: Entry;
}

export const emptyReplay = (
  sheet: Sheet,
  plan: PlanAgain,
  scales: readonly ScaleText[],
): Replayed => ({
  sheet,
  plan,
  scales,
  vessels: new Map(),
  weighings: new Map([...plan.lines].map(([step, line]) => [step, weighingOf(line)])),
  adjusted: new Map(),
  measured: new Map(),
  lots: new Map(),
  holdStarted: new Map(),
  lastAt: new Map(),
  done: new Set(),
  unwitnessed: new Set(),
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

/** More in the vessel of a step, or less. Throws a RangeError where it was not weighed. */
export const putIn = (replayed: Replayed, n: number, change: Mass): void => {
  const name = stepNumbered(replayed, n).phase?.vessel.name ?? '';
  const vessel = replayed.vessels.get(name);
  if (vessel === undefined) throw new RangeError('the vessel was not weighed');
  replayed.vessels.set(name, { ...vessel, contents: add(vessel.contents, change) });
};
