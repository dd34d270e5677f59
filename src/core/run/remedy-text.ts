/** Remedies as events keep them. */
import { toExact, toFraction } from '../quantity/decimal.ts';
import type { LineMass, Remedy } from '../remedy/remedy.ts';
import type { LineMassText, RemedyText } from './remedy-event.ts';

export const lineMassText = ({ n, mass }: LineMass): LineMassText => ({ n, mass: toExact(mass) });

/** A remedy with its numbers, or with the code of the reason that stands against it. */
export const remedyText = (remedy: Remedy): RemedyText => {
  const { kind, possible } = remedy;
  const stretch = remedy.stretch === undefined ? {} : { stretch: toFraction(remedy.stretch) };
  if (!remedy.possible) return { kind, possible, reason: remedy.reason.code, ...stretch };
  return {
    kind,
    possible,
    ...stretch,
    topUps: remedy.topUps.map(lineMassText),
    targets: remedy.targets.map(lineMassText),
    batchMass: toExact(remedy.batchMass),
    pieces: remedy.pieces,
    surplus: remedy.surplus.map(({ phase, mass }) => ({ phase, mass: toExact(mass) })),
    ...(remedy.forcedBy === undefined ? {} : { forcedBy: remedy.forcedBy.code }),
  };
};
