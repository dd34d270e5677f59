/** What happens at the other steps, event by event. */
import { readNumber, toExact } from '../../../core/quantity/decimal.ts';
import { add, isLess, type Mass, noMass } from '../../../core/quantity/quantity.ts';
import type { Material } from '../../../core/sheet/sheet.ts';
import { secondsFrom } from './deviation-again.ts';
import type { EntryOf } from './entry.ts';
import { amountAgain } from './reading-again.ts';
import {
  type Expected,
  putIn,
  type Replayed,
  stepNumbered,
  stepOfKind,
  vesselAt,
} from './replayed.ts';
import { withPours } from './weighing.ts';

const materialOf = ({ sheet }: Replayed, key: string): Material => {
  const material = sheet.materials.get(key);
  if (material === undefined) throw new RangeError('the sheet has no such material');
  return material;
};

export const ofAdjusted = (replayed: Replayed, { step, typed }: EntryOf<'adjusted'>): Expected => {
  const material = materialOf(replayed, stepOfKind(replayed, step, 'adjust').material);
  const mass = amountAgain(typed, replayed.sheet, material);
  if (mass === undefined) throw new RangeError('the typed text is not an amount');
  const lot = replayed.lots.get(step);
  const entry = lot === undefined ? { mass } : { mass, lot };
  replayed.adjusted.set(step, [...(replayed.adjusted.get(step) ?? []), entry]);
  putIn(replayed, step, mass);
  return { mass: toExact(mass), lot };
};

export const ofHoldEnded = (replayed: Replayed, { step, at }: EntryOf<'hold-ended'>): Expected => {
  const { least, most } = stepOfKind(replayed, step, 'hold');
  const started = replayed.holdStarted.get(step);
  if (started === undefined) throw new RangeError('the hold was not started');
  const seconds = secondsFrom(started, at);
  if (seconds < least) return { verdict: 'early' };
  return { verdict: most !== undefined && seconds > most ? 'late' : 'kept' };
};

export const ofMeasured = (replayed: Replayed, { step, typed }: EntryOf<'measured'>): Expected => {
  const { unit, least, most } = stepOfKind(replayed, step, 'measure');
  const digits = typed.endsWith(unit) ? typed.slice(0, typed.length - unit.length) : typed;
  const value = readNumber(digits.replace(',', '.'));
  if (value === undefined) throw new RangeError('the typed text is not a number');
  replayed.measured.set(step, toExact(value));
  const isUnder = least !== undefined && isLess(value, least);
  const isOver = most !== undefined && isLess(most, value);
  return { value: toExact(value), verdict: isUnder ? 'under' : isOver ? 'over' : 'in' };
};

const touched = (
  { vessels }: Replayed,
  name: string,
  n: number,
  change = (contents: Mass): Mass => contents,
): void => {
  const vessel = vessels.get(name);
  if (vessel !== undefined)
    vessels.set(name, { ...vessel, contents: change(vessel.contents), lastStep: n });
};

/** All that was in one vessel is in the other now, or gone. */
const movePours = ({ weighings }: Replayed, from: string, into: string | undefined): void => {
  for (const [step, weighing] of weighings) {
    const moved = withPours(weighing, pour => {
      const { where, ...rest } = pour;
      return where === from ? { ...rest, ...(into === undefined ? {} : { where: into }) } : pour;
    });
    weighings.set(step, moved);
  }
};

const emptied = (replayed: Replayed, from: string, into: string | undefined, n: number): void => {
  const moved = replayed.vessels.get(from)?.contents ?? noMass;
  touched(replayed, from, n, () => noMass);
  movePours(replayed, from, into);
  if (into === undefined || !replayed.vessels.has(into)) return;
  touched(replayed, into, n, contents => add(contents, moved));
  replayed.tipped.set(from, into);
};

export const ofTicked = (replayed: Replayed, { step }: EntryOf<'ticked'>): Expected => {
  const { phase, step: planned } = stepNumbered(replayed, step);
  if (phase !== undefined) touched(replayed, vesselAt(replayed, step), step);
  if (planned.kind === 'tip') emptied(replayed, planned.from, planned.into, step);
  if (planned.kind === 'do' && planned.empties !== undefined)
    emptied(replayed, planned.empties, undefined, step);
  return {};
};
