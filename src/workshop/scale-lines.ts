/** What the register says of scales: entered, checked, retired; and what follows of it. */
import * as z from 'zod/mini';
import type { Scale } from '../core/plan/plan.ts';
import { massUnits } from '../core/quantity/unit.ts';
import { massFrom } from '../core/run/mass-text.ts';
import { readScaleText } from '../core/run/size-text.ts';
import { accuracyClasses } from '../core/scale/accuracy-class.ts';
import { testMassClasses } from '../core/scale/test-mass.ts';
import { bookLine, shortText } from './book.ts';

const massText = z.string().check(z.regex(/^\d{1,40}(?:\.\d{1,40}|\/[1-9]\d{0,39})?$/));
const readings = z.array(massText).check(z.maxLength(1000));
const optional = z.exactOptional;

/** A scale; a later line of the same name replaces it and all that was known of it. Masses in grams. */
const scaleEntered = bookLine('scale-entered', {
  name: shortText,
  capacity: massText,
  readability: massText,
  unit: z.string().check(z.refine(unit => massUnits.has(unit))),
  interval: optional(massText),
  accuracyClass: optional(z.enum(accuracyClasses)),
  leastLoad: optional(massText),
});

const testMass = z.strictObject({ nominal: massText, massClass: z.enum(testMassClasses) });

/** Test masses with what the scale showed, readings of one mass, or both; `verdict` is of the former, `repeatability` of the latter. */
const scaleChecked = bookLine('scale-checked', {
  name: shortText,
  loads: optional(
    z
      .array(
        z.strictObject({
          masses: z.array(testMass).check(z.minLength(1), z.maxLength(100)),
          shown: massText,
        }),
      )
      .check(z.minLength(1), z.maxLength(100)),
  ),
  verdict: optional(z.enum(['within', 'doubtful', 'beyond'])),
  repeat: optional(readings),
  repeatability: optional(massText),
});

const scaleRetired = bookLine('scale-retired', { name: shortText, reason: shortText });

export const scaleLines = [scaleEntered, scaleChecked, scaleRetired] as const;

export type ScaleLine = Readonly<z.infer<(typeof scaleLines)[number]>>;

const checked = (scale: Scale, line: ScaleLine & { readonly type: 'scale-checked' }): Scale => {
  const { at, verdict, repeatability } = line;
  const known = repeatability === undefined ? {} : { repeatability: massFrom(repeatability) };
  return { ...scale, ...known, ...(verdict && { lastCheck: { at, verdict } }) };
};

/** The scales in use, in the order in which their names first came. */
export const scalesFrom = (lines: readonly ScaleLine[]): readonly Scale[] => {
  const scales = new Map<string, Scale>();
  for (const line of lines) {
    const known = scales.get(line.name);
    if (line.type === 'scale-entered') scales.set(line.name, readScaleText(line));
    else if (line.type === 'scale-retired') scales.delete(line.name);
    else if (known !== undefined) scales.set(line.name, checked(known, line));
  }
  return [...scales.values()];
};
