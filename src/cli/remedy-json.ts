import { toDecimal, toExact, toFraction } from '../core/quantity/decimal.ts';
import { type Mass, noMass, sum } from '../core/quantity/quantity.ts';
import { explainReason } from '../core/remedy/explain-reason.ts';
import type { LineMass, Remedy } from '../core/remedy/remedy.ts';
import type { Sheet } from '../core/sheet/sheet.ts';

const rounded = (mass: Mass): string => toDecimal(mass, 4, 'half-even');

const massesOf = (lines: readonly LineMass[]) =>
  lines.map(({ n, material, mass }) => ({ n, material, mass: toExact(mass) }));

const shown = (sheet: Sheet, remedy: Remedy) => {
  if (!remedy.possible) {
    const { kind, possible, reason, stretch } = remedy;
    return {
      kind,
      possible,
      reason: explainReason(sheet, reason),
      code: reason.code,
      stretch: stretch === undefined ? null : toFraction(stretch),
      topUps: [],
      targets: [],
      lifts: [],
      batchMass: null,
      pieces: null,
      surplus: null,
    };
  }
  const { kind, possible, stretch, topUps, targets, lifts, batchMass, pieces, surplus } = remedy;
  return {
    kind,
    possible,
    reason: null,
    stretch: toFraction(stretch),
    topUps: massesOf(topUps),
    targets: massesOf(targets),
    lifts: massesOf(lifts),
    batchMass: rounded(batchMass),
    pieces,
    surplus: rounded(
      sum(
        noMass,
        surplus.map(({ mass }) => mass),
      ),
    ),
    ...(remedy.forcedBy === undefined ? {} : { forcedBy: explainReason(sheet, remedy.forcedBy) }),
  };
};

/** The remedies as JSON: masses are decimal text in grams; those of the batch and the surplus to 0.0001 g, ties to even. */
export const remedyJson = (sheet: Sheet, remedies: readonly Remedy[]): string =>
  JSON.stringify({ remedies: remedies.map(each => shown(sheet, each)) }, null, 2);
