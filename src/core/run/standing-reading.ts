/** The readings by which it is known what is in, and where it is now. */
import { type Mass, subtract } from '../quantity/quantity.ts';
import type { Stamped } from './event.ts';
import { plannedStep } from './focus.ts';
import { massFrom } from './mass-text.ts';
import type { AdditionState, Pour, RunFacts, StandingReading } from './state.ts';

export interface Standing {
  readonly step: number;
  readonly state: AdditionState;
  readonly reading: StandingReading;
  /** The pour that it measures; absent for a container of which nothing was poured yet. */
  readonly pour?: Pour;
}

const standingIn = (step: number, state: AdditionState): readonly Standing[] => {
  const { before, pours, status } = state;
  const poured = pours.flatMap(pour =>
    pour.readings.map(reading => ({ step, state, reading, pour })),
  );
  const isPending =
    before !== undefined &&
    status !== 'done' &&
    poured.every(({ reading }) => reading.seq !== before.seq);
  return isPending ? [...poured, { step, state, reading: before }] : poured;
};

/** Every reading that still counts, in the order of the steps. */
export const standingReadings = ({ steps }: RunFacts): readonly Standing[] =>
  steps.flatMap((state, index) => (state.kind === 'addition' ? standingIn(index + 1, state) : []));

/** How much more is in when that reading showed `shown` instead: what is left in a cup or a container is not in. */
export const changeBy = ({ part, mass }: StandingReading, shown: Mass): Mass =>
  part === 'residue' || part === 'after'
    ? subtract(massFrom(mass), shown)
    : subtract(shown, massFrom(mass));

interface Whereabouts {
  /** Absent once it was emptied out. */
  readonly vessel?: string;
  /** It was part of a gross reading since. */
  readonly isInGross: boolean;
}

const tippedInto = (run: RunFacts, { event }: Stamped, vessel: string): string => {
  const step = event.type === 'ticked' ? plannedStep(run, event.step).step : undefined;
  return step?.kind === 'tip' && step.from === vessel ? step.into : vessel;
};

/** The vessel into which a step weighed at that event. */
const vesselAt = (run: RunFacts, step: number, seq: number): string =>
  run.events
    .filter(each => each.seq < seq)
    .reduce(
      (vessel, stamped) => tippedInto(run, stamped, vessel),
      plannedStep(run, step).addition?.vessel ?? '',
    );

const isGrossIn = (run: RunFacts, { event, seq }: Stamped, vessel: string): boolean =>
  (event.type === 'reading-taken' || event.type === 'taken-back') &&
  event.way === 'gross' &&
  vesselAt(run, event.step, seq) === vessel;

const empties = (run: RunFacts, { event }: Stamped, vessel: string): boolean => {
  const step = event.type === 'ticked' ? plannedStep(run, event.step).step : undefined;
  return step?.kind === 'do' && step.empties === vessel;
};

const moved = (run: RunFacts, now: Whereabouts, stamped: Stamped): Whereabouts => {
  const { vessel, isInGross } = now;
  if (vessel === undefined) return now;
  if (empties(run, stamped, vessel)) return { isInGross };
  return {
    vessel: tippedInto(run, stamped, vessel),
    isInGross: isInGross || isGrossIn(run, stamped, vessel),
  };
};

/** Where a pour is now, followed from its last reading through every vessel it was tipped into. */
export const whereaboutsOf = (run: RunFacts, step: number, { readAt }: Pour): Whereabouts =>
  run.events
    .filter(({ seq }) => seq > readAt)
    .reduce<Whereabouts>((now, stamped) => moved(run, now, stamped), {
      vessel: vesselAt(run, step, readAt),
      isInGross: false,
    });
