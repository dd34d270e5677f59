import { add, isMore, type Ratio, ratio, zero } from '../quantity/quantity.ts';
import { timeUnits, unitNamed } from '../quantity/unit.ts';
import { quote } from './quote.ts';
import { fromNumericText } from './read-number.ts';
import { inUnits, termsOf } from './read-quantity.ts';
import type { Fault, Reader } from './reader.ts';
import type { Deadline, Period } from './sheet.ts';

const units = new Map([...timeUnits].map(([name, seconds]) => [name, ratio(seconds)]));
const schema = { type: 'string' };
// Ten years: a wait beyond it is a slip.
const longest = ratio(10n * 366n * 86400n);

const duration = (text: string, example: string, fault: Fault): bigint | undefined => {
  let total: Ratio = zero;
  const terms = termsOf(text, example, fault);
  if (terms === undefined) return undefined;
  for (const term of terms) {
    const next = inUnits(text, term, units, fault);
    if (next === undefined) return undefined;
    total = add(total, next);
  }
  if (total.den === 1n && !isMore(total, longest)) return total.num;
  const mend = `Write whole seconds, up to ten years, such as ${example}`;
  return fault('out-of-range', `${quote(text)} is not a time that can be kept.`, mend);
};

/** `24 h`: one time above nothing. In seconds. */
export const time = (example: string): Reader<bigint> =>
  fromNumericText(
    example,
    (text, fault) => {
      const seconds = duration(text, example, fault);
      if (seconds === undefined || seconds > 0n) return seconds;
      return fault(
        'out-of-range',
        'No time at all is not possible here.',
        `Write for example ${example}`,
      );
    },
    schema,
  );

export interface DraftHold {
  readonly least: bigint;
  readonly most?: bigint;
}

/** `10 min to 30 min`; `10 min` alone is the least. In seconds. */
export const holdTime = (example: string): Reader<DraftHold> =>
  fromNumericText(
    example,
    (text, fault) => {
      const [from = '', to, ...more] = text.split(' to ');
      const least = more.length > 0 ? undefined : duration(from, example, fault);
      if (more.length > 0) {
        return fault(
          'bad-amount',
          `${quote(text)} has more than two times.`,
          `Write for example ${example}`,
        );
      }
      if (to === undefined) return least === undefined ? undefined : { least };
      const most = duration(to, example, fault);
      if (least === undefined || most === undefined) return undefined;
      if (least <= most) return { least, most };
      return fault('hold-backwards', 'The most is under the least.', `Write ${to} to ${from}`);
    },
    schema,
  );

/** `15 min of wetting`. */
export const deadline = (example: string): Reader<Deadline> =>
  fromNumericText(
    example,
    (text, fault) => {
      const at = text.indexOf(' of ');
      if (at < 0) {
        const mend = `Name the step that the time counts from, as in ${example}`;
        return fault('bad-amount', `${quote(text)} does not say since when.`, mend);
      }
      const seconds = duration(text.slice(0, at), example, fault);
      return seconds === undefined ? undefined : { seconds, of: text.slice(at + 4) };
    },
    schema,
  );

const periodUnits = ['day', 'week', 'month'] as const;

/** `9 months`: whole days, weeks or months. */
export const period = (example: string): Reader<Period> =>
  fromNumericText(
    example,
    (text, fault) => {
      const [term, ...more] = termsOf(text, example, fault) ?? [];
      if (term === undefined) return undefined;
      const name = unitNamed(term.unit, new Set<string>(periodUnits));
      const unit = periodUnits.find(each => each === name);
      const { num, den } = term.amount;
      if (unit !== undefined && more.length === 0 && den === 1n && num > 0n && num <= 1200n) {
        return { count: Number(num), unit };
      }
      const mend = `Write one whole number of days, weeks or months, such as ${example}`;
      return unit === undefined
        ? fault('unknown-unit', `The unit ${quote(term.unit)} cannot stand here.`, mend)
        : fault('out-of-range', `${quote(text)} is not possible here.`, mend);
    },
    schema,
  );
