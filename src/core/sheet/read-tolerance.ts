import { readTerms } from '../quantity/amount.ts';
import { isPositive, type Mass, zero } from '../quantity/quantity.ts';
import { massUnits } from '../quantity/unit.ts';
import { quote } from './quote.ts';
import { fromNumericText } from './read-number.ts';
import { inUnits, shareOf } from './read-quantity.ts';
import type { Fault, Reader } from './reader.ts';
import type { Allowance, Tolerance } from './sheet.ts';

const nothing: Allowance = { kind: 'share', share: zero };

const isNothing = (side: Allowance): boolean =>
  !isPositive(side.kind === 'share' ? side.share : side.mass);

const sidesOf = (text: string): readonly [string | undefined, string | undefined] | undefined => {
  if (!/[-−+±]/.test(text)) return [text, text];
  const [all, under, over] = /^(?:[-−]\s*([^-−+±]+))?(?:\+\s*([^-−+±]+))?$/.exec(text) ?? [];
  return all === undefined ? undefined : [under?.trim(), over?.trim()];
};

const unreadable = (text: string, fault: Fault): undefined => {
  const [, plus, minus] = /^\+\s*([^-−+±]+?)\s*[-−]\s*([^-−+±]+)$/.exec(text) ?? [];
  const mend =
    plus === undefined
      ? 'Write for example 1 %, or -2 % +1 %, or 1 %, at least 0.05 g'
      : `Write the minus first: -${minus} +${plus}`;
  return fault('bad-tolerance', `${quote(text)} is not a tolerance.`, mend);
};

const readSide = (side: string | undefined, fault: Fault): Allowance | undefined => {
  if (side === undefined) return nothing;
  const [term, ...more] = readTerms(side) ?? [];
  if (term === undefined || more.length > 0) return unreadable(side, fault);
  const share = shareOf(term);
  if (share !== undefined) return { kind: 'share', share };
  const mass = inUnits(side, term, massUnits, fault);
  return mass === undefined ? undefined : { kind: 'mass', mass };
};

const readFloor = (text: string, fault: Fault): Mass | undefined => {
  const [term, ...more] = readTerms(text) ?? [];
  if (term === undefined || more.length > 0) return unreadable(text, fault);
  return inUnits(text, term, massUnits, fault);
};

/** `1 %` · `0.5 g` · `-2 % +1 %` · `-0 g +2 g` · `1 %, at least 0.05 g`. One sign alone leaves the other side zero. */
export const tolerance = (example: string): Reader<Tolerance> =>
  fromNumericText(
    example,
    (text, fault) => {
      const [sidesText = '', floorText, ...more] = text.split(/\s*,\s*at least\s+/);
      const sides = more.length > 0 ? undefined : sidesOf(sidesText);
      if (sides === undefined) return unreadable(text, fault);
      const under = readSide(sides[0], fault);
      // Where both sides are one text, it is read, and complained of, once.
      const over = sides[0] === sides[1] ? under : readSide(sides[1], fault);
      const floor = floorText === undefined ? undefined : readFloor(floorText, fault);
      if (under === undefined || over === undefined) return undefined;
      if (isNothing(under) && isNothing(over)) {
        const mend = 'Write a width above zero, such as 1 %';
        return fault('bad-tolerance', 'No reading would ever be accepted.', mend);
      }
      if (floorText === undefined) return { under, over };
      return floor === undefined ? undefined : { under, over, floor };
    },
    { type: 'string' },
  );
