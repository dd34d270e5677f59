/** The three stretches: the least, whole pieces, exact proportion. */
import type { Ratio } from '../quantity/quantity.ts';
import { checkAt } from './check-finish.ts';
import { type Ground, isOver } from './finish.ts';
import { closedPhase, offer, refuse } from './offer.ts';
import type { Reason, Remedy, RemedyKind } from './remedy.ts';
import { findPieces } from './search-pieces.ts';
import {
  exactProportion,
  piecesFor,
  raise,
  raiseToPieces,
  toPieces,
  windowsReach,
} from './stretch.ts';

const atStretch = (
  kind: RemedyKind,
  ground: Ground,
  stretch: Ratio | undefined,
  kept: ReadonlySet<number>,
): Remedy => {
  if (stretch === undefined) return refuse(kind, { code: 'no-size' });
  const checked = checkAt(ground, stretch, kept);
  return checked.reason === undefined
    ? offer(kind, ground, checked)
    : refuse(kind, checked.reason, stretch);
};

/** The next whole piece; where the least stretch would not do, the first that holds everything. */
const wholePieces = (ground: Ground, least: Remedy, kept: ReadonlySet<number>): Remedy => {
  const kind = 'whole-pieces';
  const { lines, pieces } = ground;
  if (least.stretch === undefined) return refuse(kind, { code: 'no-size' });
  const phase = closedPhase(ground);
  if (least.possible && phase !== undefined) return refuse(kind, { code: 'pieces-fixed', phase });
  const next = raiseToPieces(lines, pieces, piecesFor(least.stretch, pieces));
  if (next === undefined) return refuse(kind, { code: 'no-size' });
  const plain = () => atStretch(kind, ground, toPieces(next, pieces), kept);
  if (least.possible) return plain();
  const found = findPieces(ground, next, kept);
  return found === undefined ? plain() : { ...offer(kind, ground, found), forcedBy: least.reason };
};

/** Least stretch, whole pieces, exact proportion, each raised by the same rule from its own start. */
export const stretches = (ground: Ground, kept: ReadonlySet<number>): readonly Remedy[] => {
  const { lines } = ground;
  const shut = lines.find(each => each.line.isClosed && isOver(each));
  if (shut !== undefined) {
    const { n, material } = shut.line;
    const reason: Reason = { code: 'vessel-closed', n, material };
    return [
      refuse('least-stretch', reason),
      refuse('whole-pieces', reason),
      refuse('exact-proportion', reason),
    ];
  }
  const least = atStretch('least-stretch', ground, raise(lines, windowsReach(lines)), kept);
  const exact = raise(lines, exactProportion(lines));
  return [
    least,
    wholePieces(ground, least, kept),
    atStretch('exact-proportion', ground, exact, kept),
  ];
};
