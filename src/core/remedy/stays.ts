/** The two remedies that keep the size: take back, and accept as a deviation. */
import { grams, one, type Ratio, ratio, subtract } from '../quantity/quantity.ts';
import { type Checked, checkAt } from './check-finish.ts';
import { asPlanned, type Finish, type Ground, isOver } from './finish.ts';
import { lowAt, type MeasuredLine } from './measured-line.ts';
import { lineMass, offer, refuse } from './offer.ts';
import type { AcceptedShare, LineMass, Remedy } from './remedy.ts';
import { blockedBelow } from './top-up.ts';

/** The batch finished at its present size, or what stands against that. */
const finishAsIs = (ground: Ground, kept: ReadonlySet<number>): Checked => {
  const checked = checkAt(ground, one, kept);
  const cramped = ground.lines.find(each => blockedBelow(each, one) !== undefined)?.line;
  return cramped === undefined
    ? checked
    : { ...checked, reason: { code: 'no-room', n: cramped.n, material: cramped.material } };
};

const changing = (
  ground: Ground,
  chosen: ReadonlySet<MeasuredLine>,
  change: (each: MeasuredLine) => MeasuredLine,
): Ground => ({
  ...ground,
  lines: ground.lines.map(each => (chosen.has(each) ? change(each) : each)),
});

const massOf = (parts: bigint, { unit }: Ground) => grams(ratio(parts, unit));

/** What was lifted out is in its vessel no more. */
const lightened = (ground: Ground, lifted: readonly MeasuredLine[]): Ground => {
  const vessels = new Map(ground.situation.vessels);
  for (const each of lifted) {
    const vessel = vessels.get(each.line.vessel);
    if (vessel === undefined) continue;
    const mass = subtract(vessel.mass, massOf(each.net - asPlanned(each).net, ground));
    vessels.set(each.line.vessel, { ...vessel, mass });
  }
  return { ...ground, situation: { ...ground.situation, vessels } };
};

const byPouringOrder = (a: LineMass, b: LineMass): number => a.n - b.n;

export const takeBack = (ground: Ground, kept: ReadonlySet<number>): Remedy => {
  const kind = 'take-back';
  const over = ground.lines.filter(isOver);
  if (over.length === 0) return refuse(kind, { code: 'nothing-over' });
  const buried = over.find(({ line }) => line.isClosed || !line.canTakeBack)?.line;
  if (buried !== undefined) {
    const { n, material } = buried;
    return refuse(kind, { code: 'added-since', n, material });
  }
  const lifted = lightened(changing(ground, new Set(over), asPlanned), over);
  const checked = finishAsIs(lifted, kept);
  if (checked.reason !== undefined) return refuse(kind, checked.reason, one);
  const offered = offer(kind, lifted, checked);
  const planned = over.map(each => ({ each, target: asPlanned(each).net }));
  return {
    ...offered,
    targets: [
      ...offered.targets,
      ...planned.map(({ each, target }) => lineMass(each.line, massOf(target, ground))),
    ].toSorted(byPouringOrder),
    lifts: planned.map(({ each, target }) =>
      lineMass(each.line, massOf(each.net - target, ground)),
    ),
  };
};

const isUnder = (measured: MeasuredLine): boolean =>
  measured.line.state === 'poured' &&
  !measured.line.isClosed &&
  measured.net < lowAt(measured, one);

const accepted = (measured: MeasuredLine): MeasuredLine => ({
  ...measured,
  line: { ...measured.line, state: 'accepted' },
});

const shareOf = (part: bigint, all: readonly bigint[]): Ratio =>
  ratio(
    part,
    all.reduce((total, each) => total + each, 0n),
  );

const sharesOf = (
  chosen: readonly MeasuredLine[],
  { lines }: Ground,
  { pours }: Finish,
): readonly AcceptedShare[] =>
  chosen.map(({ line, target, net }) => ({
    n: line.n,
    material: line.material,
    planned: shareOf(
      target,
      lines.map(each => each.target),
    ),
    projected: shareOf(
      net,
      pours.map(each => each.mass),
    ),
  }));

/** Lives with the lines that are over; where none is, with those that were poured and are under. */
export const accept = (ground: Ground, kept: ReadonlySet<number>): Remedy => {
  const kind = 'accept';
  const over = ground.lines.filter(isOver);
  const out = over.length > 0 ? over : ground.lines.filter(isUnder);
  if (out.length === 0) return refuse(kind, { code: 'in-window' });
  const left = changing(ground, new Set(out), accepted);
  const checked = finishAsIs(left, kept);
  return checked.reason === undefined
    ? { ...offer(kind, left, checked), shares: sharesOf(out, left, checked.finish) }
    : refuse(kind, checked.reason, one);
};
