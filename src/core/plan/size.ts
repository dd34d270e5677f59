import {
  compare,
  isPositive,
  larger,
  type Mass,
  noMass,
  one,
  type Ratio,
  ratio,
  ratioOf,
  subtract,
  times,
  zero,
} from '../quantity/quantity.ts';
import { toWhole } from '../quantity/rounding.ts';
import { type Problem, problem } from '../sheet/problem.ts';
import { quote } from '../sheet/quote.ts';
import type { Sheet } from '../sheet/sheet.ts';
import { isCarriedByAny } from './choose-scale.ts';
import { massPerPiece, nominalMass, nominalMasses, nominalMaterials } from './masses.ts';
import type { Scale, Size, SizeWish } from './plan.ts';
import { followVessels, vesselsOf } from './vessels.ts';
import { toleranceOf, windowOf } from './window.ts';

interface Sized {
  readonly size: Size;
  readonly problems: readonly Problem[];
}

const wholePieces = (value: Ratio): bigint => toWhole(value, 'down');

const ofPieces = (sheet: Sheet, pieces: number): Size => {
  const factor = Number.isSafeInteger(pieces)
    ? ratio(BigInt(pieces), BigInt(sheet.makes.count))
    : zero;
  return { batchMass: times(nominalMass(sheet), factor), pieces, remainder: noMass, factor };
};

const ofFactor = (sheet: Sheet, factor: Ratio): Size => {
  const exact = times(factor, ratio(BigInt(sheet.makes.count)));
  const pieces = wholePieces(exact);
  const beyond = ratioOf<'1'>(subtract(exact, ratio(pieces)), ratio(BigInt(sheet.makes.count)));
  const nominal = nominalMass(sheet);
  return {
    batchMass: times(nominal, factor),
    pieces: Number(pieces),
    remainder: times(nominal, beyond),
    factor,
  };
};

const ofMass = (sheet: Sheet, mass: Mass): Size => {
  const each = massPerPiece(sheet);
  const pieces = wholePieces(ratioOf<'g'>(mass, each));
  const nominal = nominalMass(sheet);
  return {
    batchMass: mass,
    pieces: Number(pieces),
    remainder: subtract(mass, times(each, ratio(pieces))),
    factor: isPositive(nominal) ? ratioOf<'g'>(mass, nominal) : zero,
  };
};

/** So many pieces and no more, and what sees to that. */
interface Bound {
  readonly pieces: bigint;
  readonly binds: string;
  readonly kind: 'material' | 'vessel' | 'scale';
}

/** The pieces for which `room` is enough, where the sheet's own count takes `needs`; undefined where it takes nothing. */
const piecesIn = (sheet: Sheet, needs: Mass | undefined, room: Mass): bigint | undefined =>
  needs !== undefined && isPositive(needs)
    ? wholePieces(times(ratioOf<'g'>(room, needs), ratio(BigInt(sheet.makes.count))))
    : undefined;

const unknownStock = (sheet: Sheet, key: string): Problem => {
  const isDeclared = sheet.materials.has(key);
  const known = [...nominalMaterials(sheet).keys()].join(', ');
  return problem(
    isDeclared ? 'unused-material' : 'undeclared-material',
    sheet.makes.place,
    isDeclared
      ? `${quote(key)} is not weighed into this batch, so it cannot set its size.`
      : `This sheet has no material ${quote(key)}.`,
    `Name one that it weighs in: ${known}.`,
  );
};

/** Contents follow the size, so the fullest moment at the sheet's own size sets the pieces that a vessel takes. */
const vesselBounds = (sheet: Sheet): readonly Bound[] => {
  const fillings = followVessels(sheet, nominalMasses(sheet));
  return [...vesselsOf(sheet).values()].flatMap(({ name, holds }) => {
    if (holds === undefined) return [];
    const fullest = fillings
      .filter(({ vessel }) => vessel === name)
      .reduce((most, { after }) => larger(most, after), noMass);
    const pieces = piecesIn(sheet, fullest, holds);
    return pieces === undefined ? [] : [{ pieces, binds: name, kind: 'vessel' }];
  });
};

const areCarried = (sheet: Sheet, pieces: bigint, scales: readonly Scale[]): boolean =>
  [...nominalMasses(sheet)].every(([step, nominal]) => {
    if (step.kind !== 'add') return true;
    const exact = times(nominal, ratio(pieces, BigInt(sheet.makes.count)));
    return isCarriedByAny(exact, windowOf(toleranceOf(sheet, step), exact), scales);
  });

/** The most pieces, below a bound, whose lines the scales carry; undefined where they carry the bound's, or not one piece. */
const scaleBound = (sheet: Sheet, most: bigint, scales: readonly Scale[]): Bound | undefined => {
  if (most < 1n || areCarried(sheet, most, scales)) return undefined;
  let [fits, breaks] = [0n, most];
  while (breaks - fits > 1n) {
    const middle = (fits + breaks) / 2n;
    if (areCarried(sheet, middle, scales)) fits = middle;
    else breaks = middle;
  }
  const [largest] = scales.toSorted((a, b) => compare(b.capacity, a.capacity));
  return fits === 0n || largest === undefined
    ? undefined
    : { pieces: fits, binds: largest.name, kind: 'scale' };
};

const tightest = (bounds: readonly Bound[]): Bound | undefined =>
  bounds.reduce<Bound | undefined>(
    (least, each) => (least === undefined || each.pieces < least.pieces ? each : least),
    undefined,
  );

const noneAllowed = ({ makes: { piece, place } }: Sheet, { binds, kind }: Bound): Problem =>
  problem(
    'no-whole-piece',
    place,
    kind === 'material'
      ? `What there is of ${quote(binds)} does not make one whole ${piece}.`
      : `${quote(binds)} does not hold what one whole ${piece} takes.`,
    kind === 'material' ? 'Get more of it.' : 'Name a larger vessel.',
  );

const ofHave = (sheet: Sheet, have: ReadonlyMap<string, Mass>, scales: readonly Scale[]): Sized => {
  const needs = nominalMaterials(sheet);
  const problems: Problem[] = [];
  const bounds: Bound[] = [];
  for (const [key, mass] of have) {
    const pieces = piecesIn(sheet, needs.get(key), mass);
    if (pieces === undefined) problems.push(unknownStock(sheet, key));
    else bounds.push({ pieces, binds: key, kind: 'material' });
  }
  if (bounds.length === 0) return { size: ofFactor(sheet, one), problems };
  const roomy = tightest([...bounds, ...vesselBounds(sheet)]);
  const bound = roomy && (scaleBound(sheet, roomy.pieces, scales) ?? roomy);
  if (bound === undefined) return { size: ofFactor(sheet, one), problems };
  const size = { ...ofPieces(sheet, Number(bound.pieces)), binds: bound.binds };
  return size.pieces >= 1
    ? { size, problems }
    : { size, problems: [...problems, noneAllowed(sheet, bound)] };
};

const sized = (sheet: Sheet, wish: SizeWish, scales: readonly Scale[]): Sized => {
  switch (wish.by) {
    case 'sheet':
      return { size: ofFactor(sheet, one), problems: [] };
    case 'pieces':
      return { size: ofPieces(sheet, wish.pieces), problems: [] };
    case 'factor':
      return { size: ofFactor(sheet, wish.factor), problems: [] };
    case 'mass':
      return { size: ofMass(sheet, wish.mass), problems: [] };
    case 'have':
      return ofHave(sheet, wish.have, scales);
  }
};

const noWholePiece = ({ makes: { piece, place } }: Sheet): Problem =>
  problem(
    'no-whole-piece',
    place,
    `A batch of this size does not make one whole ${piece}.`,
    'Ask for a larger batch.',
  );

/** Today's size, with what is wrong with it. Whole pieces are rounded down. */
export const planSize = (sheet: Sheet, wish: SizeWish, scales: readonly Scale[]): Sized => {
  const { size, problems } = sized(sheet, wish, scales);
  return size.pieces >= 1 || size.binds !== undefined
    ? { size, problems }
    : { size, problems: [...problems, noWholePiece(sheet)] };
};
