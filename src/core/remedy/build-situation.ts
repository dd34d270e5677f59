/** From a plan and what was poured to the situation that remedies are worked out of. */
import { nominalMass } from '../plan/masses.ts';
import type { Addition, Plan, PlannedStep, Scale } from '../plan/plan.ts';
import { add, dividedBy, grams, type Mass, noMass, one, ratio } from '../quantity/quantity.ts';
import { leastLoad } from '../scale/least-load.ts';
import type { Sheet, Vessel } from '../sheet/sheet.ts';
import type { Adjusting, Contents, Line, Situation, WeighingRange } from './situation.ts';

export interface Progress {
  /** By the number of the addition; nothing is in of one that is not there. */
  readonly lines: ReadonlyMap<number, Pick<Line, 'net' | 'state' | 'canTakeBack'>>;
  /** By the number of the step; nothing is in of one that is not there. */
  readonly adjusts: ReadonlyMap<number, Pick<Adjusting, 'net' | 'isDone'>>;
  /** Numbers of the steps that were done, so far as they empty or tip a vessel. */
  readonly done: ReadonlySet<number>;
  /** Phases whose vessel was emptied at their end, whatever their steps say. */
  readonly closedPhases: ReadonlySet<string>;
  readonly stock: ReadonlyMap<string, Mass>;
}

const nothing: Pick<Line, 'net' | 'state' | 'canTakeBack'> = {
  net: noMass,
  state: 'open',
  canTakeBack: false,
};

/** A vessel from one emptying to the next. */
interface Filling {
  readonly key: string;
  readonly vessel: Vessel;
  isEmptied: boolean;
  /** It is to be tipped, or was tipped, into that one. */
  into?: Filling;
}

interface Walk {
  readonly plan: Plan;
  readonly progress: Progress;
  readonly fillings: Filling[];
  /** The filling in use, by the vessel's name. */
  readonly current: Map<string, Filling>;
}

const fillingOf = ({ plan, fillings, current }: Walk, name: string): Filling => {
  const present = current.get(name);
  if (present !== undefined) return present;
  const vessel = plan.phases.find(each => each.vessel.name === name)?.vessel ?? { name };
  const filling = { key: `${name} ${fillings.length}`, vessel, isEmptied: false };
  fillings.push(filling);
  current.set(name, filling);
  return filling;
};

const empty = (walk: Walk, name: string, isDone: boolean): void => {
  fillingOf(walk, name).isEmptied ||= isDone;
  walk.current.delete(name);
};

const tip = (walk: Walk, from: string, into: string, isDone: boolean): void => {
  fillingOf(walk, from).into = fillingOf(walk, into);
  empty(walk, from, isDone);
};

/** Which filling each addition and adjust step goes into, by the step's number. */
const followFillings = (walk: Walk): ReadonlyMap<number, Filling> => {
  const { plan, progress } = walk;
  const places = new Map<number, Filling>();
  for (const { name, vessel, steps } of plan.phases) {
    for (const { n, step } of steps.flatMap(n => plan.steps[n - 1] ?? [])) {
      const isDone = progress.done.has(n);
      if (step.kind === 'tip') tip(walk, step.from, step.into, isDone);
      else if (step.kind === 'do' && step.empties !== undefined) empty(walk, step.empties, isDone);
      else if (step.kind === 'add' || step.kind === 'adjust')
        places.set(n, fillingOf(walk, vessel.name));
    }
    if (progress.closedPhases.has(name)) empty(walk, vessel.name, true);
  }
  return places;
};

// What was tipped is in the other vessel now, and is topped up there.
const present = (filling: Filling): Filling =>
  filling.isEmptied && filling.into !== undefined ? present(filling.into) : filling;

// A plan whose line has no scale is not one to be made; this scale carries nothing.
const noScale: Scale = { name: '', capacity: noMass, readability: grams(one), unit: 'g' };

const rangeOf = (scale: Scale): WeighingRange => ({
  readability: scale.readability,
  leastLoad: leastLoad(scale)?.mass ?? noMass,
  capacity: scale.capacity,
});

const lineOf = (addition: Addition, filling: Filling, { lines }: Progress): Line => ({
  n: addition.n,
  phase: addition.phase,
  material: addition.material,
  vessel: filling.key,
  exact: addition.exact,
  tolerance: addition.tolerance,
  isClosed: filling.isEmptied,
  scale: rangeOf(addition.onScale?.scale ?? noScale),
  ...(lines.get(addition.n) ?? nothing),
});

const adjustingOf = (
  { n, phase = '', step, most = noMass }: PlannedStep,
  { key, isEmptied }: Filling,
  { adjusts }: Progress,
): Adjusting | undefined => {
  if (step.kind !== 'adjust') return undefined;
  const { net, isDone } = adjusts.get(n) ?? { net: noMass, isDone: false };
  const { material } = step;
  return { phase, material, vessel: key, net, most, isDone: isDone || isEmptied };
};

const contentsOf = (
  fillings: readonly Filling[],
  pours: readonly Pick<Line, 'vessel' | 'net'>[],
): ReadonlyMap<string, Contents> =>
  new Map(
    fillings
      .filter(each => !each.isEmptied)
      .map(({ key, vessel, into }) => [
        key,
        {
          name: vessel.name,
          mass: pours.reduce(
            (all, each) => (each.vessel === key ? add(all, each.net) : all),
            noMass,
          ),
          ...(vessel.holds === undefined ? {} : { holds: vessel.holds }),
          ...(into === undefined ? {} : { into: present(into).key }),
        },
      ]),
  );

/** The situation of a batch of this plan, after what was poured. Its plan must be free of errors. */
export const buildSituation = (sheet: Sheet, plan: Plan, progress: Progress): Situation => {
  const walk: Walk = { plan, progress, fillings: [], current: new Map() };
  const places = followFillings(walk);
  const placed = plan.steps.flatMap(planned => {
    const place = places.get(planned.n);
    return place === undefined ? [] : [{ planned, filling: present(place) }];
  });
  const lines = placed.flatMap(({ planned: { addition }, filling }) =>
    addition === undefined ? [] : [lineOf(addition, filling, progress)],
  );
  const adjusts = placed.flatMap(
    ({ planned, filling }) => adjustingOf(planned, filling, progress) ?? [],
  );
  return {
    lines,
    adjusts,
    vessels: contentsOf(walk.fillings, [...lines, ...adjusts]),
    stock: progress.stock,
    limits: sheet.limits,
    pieces: plan.size.pieces,
    perPiece: dividedBy(nominalMass(sheet), ratio(BigInt(sheet.makes.count))),
  };
};
