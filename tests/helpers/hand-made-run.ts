import type { PlannedStep } from '../../src/core/plan/plan.ts';
import { planBatch } from '../../src/core/plan/plan-batch.ts';
import { verdictOf } from '../../src/core/plan/window.ts';
import { noMass } from '../../src/core/quantity/quantity.ts';
import type { OpenRun, StepState } from '../../src/core/run/state.ts';
import type { Sheet } from '../../src/core/sheet/sheet.ts';
import { big, fine } from './plan.ts';
import { mass } from './sheet.ts';

const begunAt = { epochMs: Date.UTC(2027, 2, 4, 8, 12), offset: 60 };

const waiting = { status: 'waiting', isOverdueAccepted: false } as const;

const freshStep = ({ step }: PlannedStep): StepState => {
  switch (step.kind) {
    case 'add':
      return {
        ...waiting,
        kind: 'addition',
        pours: [],
        total: noMass,
        partsDone: 0,
        partFrom: 0,
        isAccepted: false,
        isGone: false,
        isWitnessDue: false,
      };
    case 'measure':
      return { ...waiting, kind: 'measure' };
    case 'adjust':
      return { ...waiting, kind: 'adjust', entries: [], total: noMass };
    case 'tally':
      return { ...waiting, kind: 'tally', entries: [] };
    default:
      return { ...waiting, kind: 'plain' };
  }
};

/** An invented batch of a sheet, begun and nothing done; on the invented scales big and fine. */
export const handMadeRun = (sheet: Sheet, change: Partial<OpenRun> = {}): OpenRun => {
  const { plan } = planBatch(sheet, { by: 'sheet' }, [big, fine]);
  return {
    phase: 'open',
    batch: `${sheet.code}-2027-014`,
    practice: true,
    program: 'tarebook 0',
    sheetText: '',
    sheet,
    plan,
    begunPlan: plan,
    begunBy: 'Ada',
    begunAt,
    person: 'Ada',
    events: [
      {
        seq: 1,
        at: '2027-03-04T09:12:33.120+01:00',
        by: 'Ada',
        event: { type: 'resumed' },
      },
    ],
    vessels: new Map(
      plan.phases.map(phase => [
        phase.vessel.name,
        { tare: phase.vessel.tare ?? mass('100'), contents: noMass, isOpen: true },
      ]),
    ),
    lots: new Map(),
    steps: plan.steps.map(freshStep),
    deviations: [],
    later: new Set(),
    isPaused: false,
    clockWentBack: [],
    ...change,
  };
};

/** The same batch with so many grams in an addition, which is done when they are in its window. */
export const withPoured = (run: OpenRun, n: number, grams: string, lot = 'CA-2291'): OpenRun => {
  const addition = run.plan.steps[n - 1]?.addition;
  if (addition === undefined) throw new Error(`step ${n} is no addition`);
  const total = mass(grams);
  const verdict = verdictOf(total, addition.window);
  return {
    ...run,
    steps: run.steps.map((state, at) =>
      at === n - 1 && state.kind === 'addition'
        ? {
            ...state,
            status: verdict === 'in' ? 'done' : 'waiting',
            pours: [{ lot, readings: [], readAt: 0, net: total, waste: noMass }],
            total,
            verdict,
          }
        : state,
    ),
  };
};

/** The same batch with a step in another state. */
export const withStep = (run: OpenRun, n: number, change: Partial<StepState>): OpenRun => ({
  ...run,
  steps: run.steps.map((state, at) =>
    at === n - 1 ? ({ ...state, ...change } as StepState) : state,
  ),
});
