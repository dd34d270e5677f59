/**
 * What could be done about an over-pour, worked out a second time, in another way than the batch itself
 * did it (blocked intervals side by side instead of one rise after another; halving
 * instead of leaping), so that agreement means something.
 */
import { toExact, toFraction } from '../../../../core/quantity/decimal.ts';
import {
  isLess,
  isMore,
  larger,
  type Mass,
  noMass,
  one,
  type Ratio,
  ratio,
  ratioOf,
  subtract,
  sum,
  times,
} from '../../../../core/quantity/quantity.ts';
import { toWhole } from '../../../../core/quantity/rounding.ts';
import type { LineMassText, RemedyText, StretchKind } from '../../../../core/run/remedy-event.ts';
import { type Finish, finishAt, keptAt, reasonAgainst, type Standing } from './finish.ts';
import {
  firstFreeAmong,
  firstFreePieces,
  inProportion,
  noneOver,
  piecesAt,
  stretchTo,
} from './free-stretch.ts';
import {
  asTheSheetHasIt,
  isBlockedAt,
  isOver,
  massOfDivisions,
  type PourLine,
  windowAt,
} from './pour-line.ts';
import { type Search, searchPieces } from './search-pieces.ts';

type Kept = readonly boolean[];

const refused = (kind: RemedyText['kind'], reason: string, stretch?: Ratio): RemedyText => ({
  kind,
  possible: false,
  reason,
  ...(stretch === undefined ? {} : { stretch: toFraction(stretch) }),
});

const sumOf = (lines: readonly PourLine[], massOf: (line: PourLine) => Mass): Mass =>
  sum(noMass, lines.map(massOf));

const lineText = ({ n }: PourLine, mass: Mass): LineMassText => ({ n, mass: toExact(mass) });

const surplusAt = ({ lines }: Standing, stretch: Ratio) => {
  const open = lines.filter(line => !line.place.isClosed);
  return [...new Set(open.map(line => line.phase))].map(phase => ({
    phase,
    mass: toExact(
      times(
        sumOf(
          open.filter(line => line.phase === phase),
          line => line.exact,
        ),
        subtract(stretch, one),
      ),
    ),
  }));
};

const offered = (
  kind: RemedyText['kind'],
  standing: Standing,
  { stretch, poured }: Finish,
): RemedyText => {
  const pours = poured.filter(({ divisions }) => divisions > 0n);
  const batchMass = sumOf(standing.lines, line =>
    line.place.isClosed ? line.net : times(line.exact, stretch),
  );
  // A phase that is closed has fixed the number of pieces; what the others yield beyond is a surplus.
  const isFixed = standing.lines.some(line => line.place.isClosed);
  return {
    kind,
    possible: true,
    stretch: toFraction(stretch),
    topUps: pours
      .filter(({ line }) => line.state !== 'open')
      .map(({ line, divisions }) => lineText(line, massOfDivisions(line, divisions))),
    targets: pours
      .filter(({ line }) => line.state === 'open')
      .map(({ line, mass }) => lineText(line, mass)),
    batchMass: toExact(batchMass),
    pieces: isFixed
      ? standing.pieces
      : Number(toWhole(ratioOf<'g'>(batchMass, standing.eachPiece), 'down')),
    surplus: isFixed && isMore(stretch, one) ? surplusAt(standing, stretch) : [],
  };
};

const atStretch = (
  kind: RemedyText['kind'],
  standing: Standing,
  stretch: Ratio,
  kept: Kept,
): RemedyText => {
  const finish = finishAt(standing, stretch);
  const reason = reasonAgainst(standing, finish, kept);
  return reason === undefined ? offered(kind, standing, finish) : refused(kind, reason, stretch);
};

/** At the present size, once nothing is over any more. */
const asItIs = (kind: 'take-back' | 'accept', standing: Standing, kept: Kept): RemedyText =>
  standing.lines.some(line => isBlockedAt(line, one))
    ? refused(kind, 'no-room', one)
    : atStretch(kind, standing, one, kept);

const replacing = (
  standing: Standing,
  chosen: readonly PourLine[],
  change: (line: PourLine) => PourLine,
): Standing => ({
  ...standing,
  lines: standing.lines.map(line => (chosen.includes(line) ? change(line) : line)),
});

const takeBack = (standing: Standing, over: readonly PourLine[], kept: Kept): RemedyText => {
  if (over.length === 0) return refused('take-back', 'nothing-over');
  if (over.some(line => line.place.isClosed || !line.canTakeBack))
    return refused('take-back', 'added-since');
  const text = asItIs('take-back', replacing(standing, over, asTheSheetHasIt), kept);
  if (!text.possible) return text;
  const wanted = over.map(line => lineText(line, asTheSheetHasIt(line).net));
  return { ...text, targets: [...(text.targets ?? []), ...wanted].toSorted((a, b) => a.n - b.n) };
};

const isShort = (line: PourLine): boolean =>
  line.state === 'poured' && !line.place.isClosed && isLess(line.net, windowAt(line, one).low);

const accept = (standing: Standing, over: readonly PourLine[], kept: Kept): RemedyText => {
  const out = over.length > 0 ? over : standing.lines.filter(isShort);
  return out.length === 0
    ? refused('accept', 'in-window')
    : asItIs(
        'accept',
        replacing(standing, out, line => ({ ...line, state: 'accepted' })),
        kept,
      );
};

const scrap = ({ lines }: Standing): RemedyText => ({
  kind: 'scrap',
  possible: true,
  stretch: toFraction(one),
  topUps: [],
  targets: [],
  batchMass: toExact(sumOf(lines, line => line.net)),
  pieces: 0,
  surplus: [],
});

const stretchKinds: readonly StretchKind[] = ['least-stretch', 'whole-pieces', 'exact-proportion'];

const stretches = (
  standing: Standing,
  over: readonly PourLine[],
  kept: Kept,
): readonly RemedyText[] => {
  const { lines } = standing;
  if (over.some(line => line.place.isClosed))
    return stretchKinds.map(kind => refused(kind, 'vessel-closed'));
  const firstFree = firstFreeAmong(lines);
  const start = firstFree(noneOver(lines));
  const least = atStretch('least-stretch', standing, start, kept);
  const exact = atStretch('exact-proportion', standing, firstFree(inProportion(lines)), kept);
  return [least, wholePieces({ standing, kept, firstFree }, start, least), exact];
};

const wholePieces = (
  { standing, kept, firstFree }: Omit<Search, 'pieces'>,
  start: Ratio,
  least: RemedyText,
): RemedyText => {
  const kind = 'whole-pieces';
  const { lines, eachPiece } = standing;
  if (least.possible && lines.some(line => line.place.isClosed))
    return refused(kind, 'pieces-fixed');
  const pieces = ratioOf<'g'>(
    sumOf(lines, line => line.exact),
    eachPiece,
  );
  const next = firstFreePieces(firstFree, pieces, piecesAt(start, pieces));
  const plain = atStretch(kind, standing, stretchTo(next, pieces), kept);
  if (least.possible) return plain;
  // Up to twice the batch, or exact proportion if that is more: beyond it shares hardly change.
  const most = piecesAt(larger(ratio(2n), inProportion(lines)), pieces);
  const found = searchPieces(
    { standing, kept, firstFree, pieces },
    next,
    most < next ? next : most,
  );
  return found === undefined
    ? plain
    : {
        ...offered(kind, standing, found),
        ...(least.reason === undefined ? {} : { forcedBy: least.reason }),
      };
};

/** Every remedy in the fixed order, as an event keeps it. */
export const remediesAgain = (standing: Standing): readonly RemedyText[] => {
  const over = standing.lines.filter(isOver);
  const rightly = replacing(standing, over, asTheSheetHasIt);
  const kept = keptAt(standing, finishAt(rightly, one));
  return [
    takeBack(standing, over, kept),
    ...stretches(standing, over, kept),
    accept(standing, over, kept),
    scrap(standing),
  ];
};
