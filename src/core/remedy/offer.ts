/** A projected finish as a remedy with its numbers. */
import {
  add,
  grams,
  isMore,
  type Mass,
  one,
  type Ratio,
  ratio,
  ratioOf,
  subtract,
  times,
} from '../quantity/quantity.ts';
import { toWhole } from '../quantity/rounding.ts';
import type { Checked } from './check-finish.ts';
import { asFinding } from './check-limits.ts';
import type { Finish, Ground, Pour } from './finish.ts';
import type { LineMass, OfferedRemedy, PhaseMass, Reason, Remedy, RemedyKind } from './remedy.ts';
import type { Line } from './situation.ts';

export const lineMass = ({ n, material }: Line, mass: Mass): LineMass => ({ n, material, mass });

const pouredMass = ({ measured, divisions }: Pour): Mass =>
  times(measured.line.scale.readability, ratio(divisions));

const isToPour = ({ divisions }: Pour): boolean => divisions > 0n;

const isOpen = ({ measured }: Pour): boolean => measured.line.state === 'open';

const topUpsOf = ({ pours }: Finish): readonly LineMass[] =>
  pours
    .filter(each => isToPour(each) && !isOpen(each))
    .map(each => lineMass(each.measured.line, pouredMass(each)));

const targetsOf = ({ pours }: Finish): readonly LineMass[] =>
  pours
    .filter(each => isToPour(each) && isOpen(each))
    .map(each => lineMass(each.measured.line, add(each.measured.line.net, pouredMass(each))));

/** Closed lines as they are, all others as the sheet would have them at this size. */
const batchMassOf = ({ unit }: Ground, { pours, stretch }: Finish): Mass => {
  let parts = 0n;
  for (const { measured } of pours) {
    const { line, net, target } = measured;
    parts += line.isClosed ? net * stretch.den : target * stretch.num;
  }
  return grams(ratio(parts, unit * stretch.den));
};

const surplusOf = (ground: Ground, { stretch }: Finish): readonly PhaseMass[] => {
  const beyond = subtract(stretch, one);
  const surplus = new Map<string, bigint>();
  for (const { line, target } of ground.lines) {
    if (!line.isClosed) surplus.set(line.phase, (surplus.get(line.phase) ?? 0n) + target);
  }
  return [...surplus].map(([phase, parts]) => ({
    phase,
    mass: times(grams(ratio(parts, ground.unit)), beyond),
  }));
};

/** A phase that can no longer be stretched has fixed the number of pieces. */
export const closedPhase = ({ situation }: Ground): string | undefined =>
  situation.lines.find(line => line.isClosed)?.phase;

const yieldOf = (ground: Ground, finish: Finish, batchMass: Mass) => {
  const { pieces, perPiece } = ground.situation;
  if (closedPhase(ground) === undefined) {
    return { pieces: Number(toWhole(ratioOf<'g'>(batchMass, perPiece), 'down')), surplus: [] };
  }
  const isLarger = isMore(finish.stretch, one);
  return { pieces, surplus: isLarger ? surplusOf(ground, finish) : [] };
};

/** A remedy that is none, with the reason. */
export const refuse = (kind: RemedyKind, reason: Reason, stretch?: Ratio): Remedy => ({
  kind,
  possible: false,
  reason,
  ...(stretch === undefined ? {} : { stretch }),
});

/** The remedy that a checked finish is. */
export const offer = (
  kind: RemedyKind,
  ground: Ground,
  { finish, findings }: Checked,
): OfferedRemedy => {
  const batchMass = batchMassOf(ground, finish);
  return {
    kind,
    possible: true,
    stretch: finish.stretch,
    topUps: topUpsOf(finish),
    targets: targetsOf(finish),
    lifts: [],
    batchMass,
    ...yieldOf(ground, finish, batchMass),
    shares: [],
    limits: findings.limits.map(asFinding),
  };
};

/** Nothing more is poured, nothing comes of it; what is in is what was used. */
export const scrap = ({ unit, lines }: Ground): OfferedRemedy => ({
  kind: 'scrap',
  possible: true,
  stretch: one,
  topUps: [],
  targets: [],
  lifts: [],
  batchMass: grams(
    ratio(
      lines.reduce((total, { net }) => total + net, 0n),
      unit,
    ),
  ),
  pieces: 0,
  surplus: [],
  shares: [],
  limits: [],
});
