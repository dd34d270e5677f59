/**
 * The reading of a scale as a person or a device types it. Whatever could be read in two ways is
 * refused with a sentence of its own: a wrong mass in the bowl costs more than a second try.
 */
import { readNumber } from './decimal.ts';
import { type Display, decimalsOf } from './display.ts';
import { explainThousands } from './explain-thousands.ts';
import { absolute, add, isLess, isMore, type Mass, negate, type Ratio, ratio } from './quantity.ts';
import { showMass } from './show.ts';
import { massIn, massUnits, unitNamed } from './unit.ts';

export interface Reading {
  readonly ok: true;
  readonly mass: Mass;
  /** The unit it was read in: the scale's own where none was typed; `lb oz` for pounds with ounces. */
  readonly unit: string;
  /** As typed, without blanks around it. */
  readonly typed: string;
}

export interface ReadingRefusal {
  readonly ok: false;
  readonly code:
    | 'bad-reading'
    | 'ambiguous-reading'
    | 'too-many-decimals'
    | 'wrong-unit'
    | 'over-capacity';
  readonly message: string;
  readonly instead: string;
}

const longest = 40;
const example = 'Type what the scale shows, for example 812.4.';

const refuse = (
  code: ReadingRefusal['code'],
  message: string,
  instead = example,
): ReadingRefusal => ({ ok: false, code, message, instead });

const isRefusal = (value: Ratio | ReadingRefusal): value is ReadingRefusal => 'ok' in value;

/** Why text is no number with a unit at all. */
const explainShape = (text: string): ReadingRefusal => {
  if (text === '') return refuse('bad-reading', 'Nothing was typed.');
  if (text.length > longest) return refuse('bad-reading', 'That is too long for a reading.');
  if (/[^\P{Nd}0-9]/u.test(text)) {
    return refuse('bad-reading', 'Those digits are not the plain ones.', 'Type the digits 0 to 9.');
  }
  if (/^[+\-−]?\s*[\d.,]+e[+-]?\d+/i.test(text)) {
    return refuse('bad-reading', 'A reading has no power of ten.', 'Type 1000, not 1e3.');
  }
  if (/\d\s+[\d.,]/.test(text)) {
    return refuse(
      'bad-reading',
      'There is a gap between the digits.',
      'Type the number without a gap: 1234.5.',
    );
  }
  return refuse('bad-reading', 'That is not a reading of a scale.');
};

const readMarkedNumber = (digits: string): Ratio | ReadingRefusal => {
  if (/[.,].*[.,]/.test(digits)) {
    return refuse(
      'bad-reading',
      'There are two marks in the number.',
      'Type one point and no marks between thousands: 1234.5.',
    );
  }
  if (/^[.,]|[.,]$/.test(digits)) {
    return refuse(
      'bad-reading',
      'A digit is missing beside the point.',
      'Type digits on both sides of it: 0.5.',
    );
  }
  if (/^[1-9]\d{0,2},\d{3}$/.test(digits)) {
    const { message, instead } = explainThousands(digits);
    return refuse('ambiguous-reading', message, instead);
  }
  return readNumber(digits.replace(',', '.')) ?? explainShape(digits);
};

const checkDecimals = (
  digits: string,
  unit: string,
  scale: Display,
): ReadingRefusal | undefined => {
  const shown = decimalsOf(scale, unit);
  const typed = digits.split(/[.,]/)[1]?.length ?? 0;
  if (typed <= shown) return undefined;
  const most = shown === 0 ? 'no decimals' : shown === 1 ? 'one decimal' : `${shown} decimals`;
  return refuse(
    'too-many-decimals',
    `This scale shows ${most} in ${unit}, and ${typed} were typed.`,
    'Look at the display again, or name the unit that it shows.',
  );
};

const checkCapacity = (mass: Mass, scale: Display): ReadingRefusal | undefined =>
  isMore(absolute(mass), scale.capacity)
    ? refuse(
        'over-capacity',
        `That is more than this scale can carry: ${showMass(scale.capacity, scale)}.`,
        'Look at the display and its unit again.',
      )
    : undefined;

interface Parts {
  readonly sign: string;
  readonly digits: string;
  readonly unit: string;
  /** Whole pounds in front of the ounces. */
  readonly pounds?: bigint;
}

const accept = (parts: Parts, typed: string, scale: Display): Reading | ReadingRefusal => {
  const { sign, digits, unit, pounds } = parts;
  const amount = readMarkedNumber(digits);
  if (isRefusal(amount)) return amount;
  const ounces = massIn(amount, unit);
  const size = pounds === undefined ? ounces : add(massIn(ratio(pounds), 'lb'), ounces);
  const mass = sign === '-' || sign === '−' ? negate(size) : size;
  const named = pounds === undefined ? unit : 'lb oz';
  return (
    checkDecimals(digits, unit, scale) ??
    checkCapacity(mass, scale) ?? { ok: true, mass, unit: named, typed }
  );
};

const readPounds = (text: string, scale: Display): Reading | ReadingRefusal | undefined => {
  const match = /^([+\-−]?)\s*(\d+)\s*lbs?\s+([\d.,]+)\s*oz$/.exec(text);
  if (match === null) return undefined;
  const [, sign = '', pounds = '0', digits = ''] = match;
  const ounces = readMarkedNumber(digits);
  if (!isRefusal(ounces) && !isLess(ounces, ratio(16n))) {
    return refuse('bad-reading', 'A pound has only 16 ounces.', 'Type it as 1 lb 12.6 oz.');
  }
  return accept({ sign, digits, unit: 'oz', pounds: BigInt(pounds) }, text, scale);
};

// Letters that devices send in front of the number, in capitals: steady or not, then gross or net.
const marks = /^(?:(ST|US)[\s,]\s*(?:(?:GS|NT|G|N)[\s,])?|(?:S\s+)?([SD])\s|[GN]\s)\s*/;

const isUnsteady = (text: string): boolean => {
  const [, pair, single] = marks.exec(text) ?? [];
  return pair === 'US' || single === 'D';
};

/** The text of a reading without the letters that a device sends in front of it: `ST,GS,+ 812.40 g` is `+ 812.40 g`. */
export const withoutMarks = (typed: string): string => typed.trim().replace(marks, '');

const readUnmarked = (text: string, scale: Display): Reading | ReadingRefusal => {
  const pounds = readPounds(text, scale);
  if (pounds !== undefined) return pounds;
  const match = /^([+\-−]?)\s*([\d.,]*\d[\d.,]*)\s*([\p{L}%°]*)$/u.exec(text);
  const [, sign = '', digits = '', name = ''] = match ?? [];
  if (match === null || /^e$/i.test(name)) return explainShape(text);
  const unit = name === '' ? scale.unit : unitNamed(name, massUnits);
  if (unit !== undefined) return accept({ sign, digits, unit }, text, scale);
  return refuse(
    'wrong-unit',
    `“${name}” is not a unit that a scale shows.`,
    `Use ${[...massUnits.keys()].join(', ')}, or type the number alone.`,
  );
};

/**
 * Reads a display as it was typed: `812.4`, `812,4`, `+ 812.40 g`, `0.8124kg`, `1 lb 12.6 oz`, with or
 * without the letters of a device in front (`ST,GS,`, `S S`, `N`). Without a unit it is the scale's own.
 * A comma is a point, except where it could part thousands (`1,234`). Negative readings are read;
 * whether one makes sense is the caller's to judge. A reading marked as unsteady is refused.
 */
export const readReading = (typed: string, scale: Display): Reading | ReadingRefusal => {
  const text = typed.trim();
  if (text.length > longest) return explainShape(text);
  const reading = readUnmarked(withoutMarks(text), scale);
  if (!reading.ok) return reading;
  return isUnsteady(text)
    ? refuse(
        'bad-reading',
        'The scale marked that reading as not steady yet.',
        'Wait until the display is steady, then send it again.',
      )
    : { ...reading, typed: text };
};
