import {
  isPositive,
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
import { massPerPiece, nominalMass, nominalMaterials } from './masses.ts';
import type { Size, SizeWish } from './plan.ts';

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

/** The pieces that one material allows; undefined where none of it is weighed in. */
const piecesFrom = (sheet: Sheet, needs: Mass | undefined, have: Mass): bigint | undefined =>
  needs !== undefined && isPositive(needs)
    ? wholePieces(times(ratioOf<'g'>(have, needs), ratio(BigInt(sheet.makes.count))))
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

const ofHave = (sheet: Sheet, have: ReadonlyMap<string, Mass>): Sized => {
  const needs = nominalMaterials(sheet);
  const problems: Problem[] = [];
  let least: { readonly key: string; readonly pieces: bigint } | undefined;
  for (const [key, mass] of have) {
    const pieces = piecesFrom(sheet, needs.get(key), mass);
    if (pieces === undefined) problems.push(unknownStock(sheet, key));
    else if (least === undefined || pieces < least.pieces) least = { key, pieces };
  }
  if (least === undefined) return { size: ofFactor(sheet, one), problems };
  return { size: { ...ofPieces(sheet, Number(least.pieces)), binds: least.key }, problems };
};

const sized = (sheet: Sheet, wish: SizeWish): Sized => {
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
      return ofHave(sheet, wish.have);
  }
};

const noWholePiece = (sheet: Sheet, { binds }: Size): Problem => {
  const { piece, place } = sheet.makes;
  return binds === undefined
    ? problem(
        'no-whole-piece',
        place,
        `A batch of this size does not make one whole ${piece}.`,
        'Ask for a larger batch.',
      )
    : problem(
        'no-whole-piece',
        place,
        `What there is of ${quote(binds)} does not make one whole ${piece}.`,
        'Get more of it.',
      );
};

/** Today's size, with what is wrong with it. Whole pieces are rounded down. */
export const planSize = (sheet: Sheet, wish: SizeWish): Sized => {
  const { size, problems } = sized(sheet, wish);
  return size.pieces >= 1
    ? { size, problems }
    : { size, problems: [...problems, noWholePiece(sheet, size)] };
};
