/** From typed text to grams a second time: displays, and what an adjust step was given. */
import { readNumber } from '../../../core/quantity/decimal.ts';
import {
  add,
  type Mass,
  massOf,
  negate,
  noMass,
  type Ratio,
  times,
} from '../../../core/quantity/quantity.ts';
import { massIn, massUnits, unitNamed, volumeUnits } from '../../../core/quantity/unit.ts';
import type { ScaleText, Typed } from '../../../core/run/event.ts';
import type { Material, Sheet } from '../../../core/sheet/sheet.ts';

const decimal = (digits: string): Ratio | undefined =>
  /^\d{1,30}(?:[.,]\d{1,30})?$/.test(digits) ? readNumber(digits.replace(',', '.')) : undefined;

const inPounds = (text: string): Mass | undefined => {
  const [, pounds = '', ounces = ''] = /^(\d+)\s*lbs?\s+([\d.,]+)\s*oz$/.exec(text) ?? [];
  const [whole, rest] = [decimal(pounds), decimal(ounces)];
  return whole && rest && add(massIn(whole, 'lb'), massIn(rest, 'oz'));
};

interface Amount {
  readonly mass: Mass;
  readonly unit: string;
}

const sizeOf = (text: string, own: string): Amount | undefined => {
  const pounds = inPounds(text);
  if (pounds !== undefined) return { mass: pounds, unit: 'lb oz' };
  const [, digits = '', suffix = ''] = /^([\d.,]+)\s*(\p{L}*)$/u.exec(text) ?? [];
  const amount = decimal(digits);
  const unit = unitNamed(suffix === '' ? own : suffix, massUnits);
  return amount && unit ? { mass: massIn(amount, unit), unit } : undefined;
};

// Letters that a device puts in front of a steady reading.
const marks = /^(?:ST[\s,]\s*(?:(?:GS|NT|G|N)[\s,])?|(?:S\s+)?S\s|[GN]\s)\s*/;

/** The unit and the mass that the typed text of a display means on that scale; undefined where it means none. */
export const readingAgain = (
  { typed, scale }: Typed,
  scales: readonly ScaleText[],
): Amount | undefined => {
  const own = scales.find(each => each.name === scale);
  const [, sign = '', text = ''] =
    /^([+\-−]?)\s*(.*)$/su.exec(typed.trim().replace(marks, '')) ?? [];
  const size = own && sizeOf(text, own.unit);
  if (size === undefined) return undefined;
  return sign === '' || sign === '+' ? size : { ...size, mass: negate(size.mass) };
};

const massOfOne = (unit: string, sheet: Sheet, material: Material): Mass | undefined => {
  const mass = massUnits.get(unitNamed(unit, massUnits) ?? '');
  if (mass !== undefined) return mass;
  if (unitNamed(unit, new Set(['each'])) !== undefined) return material.each;
  const volume =
    sheet.measures.get(unitNamed(unit, sheet.measures) ?? '') ??
    volumeUnits.get(unitNamed(unit, volumeUnits) ?? '') ??
    (unitNamed(unit, new Set(['drop'])) === undefined ? undefined : material.drop);
  return volume && material.density && massOf(volume, material.density);
};

const oneTerm = /(\d+\s+\d+\/\d+|\d+(?:[.,/]\d+)?)\s*([\p{L}%°]+(?:\s+[\p{L}%°]+)*)\s*/uy;

/** What `12 mL`, `1 pump`, `3 drops` or `1 lb 2 oz` of a material weighs; undefined for anything else. */
export const amountAgain = (typed: string, sheet: Sheet, material: Material): Mass | undefined => {
  const text = typed.trim();
  let total = noMass;
  for (oneTerm.lastIndex = 0; oneTerm.lastIndex < text.length; ) {
    const [, digits = '', unit = ''] = oneTerm.exec(text) ?? [];
    const amount = readNumber(digits.replace(',', '.'));
    const mass = massOfOne(unit, sheet, material);
    if (amount === undefined || mass === undefined) return undefined;
    total = add(total, times(mass, amount));
  }
  return total;
};
