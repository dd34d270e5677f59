/** What happens around an addition, event by event: vessel, lot, tare, readings. */
import { toExact } from '../../../core/quantity/decimal.ts';
import {
  add,
  isLess,
  type Mass,
  noMass,
  ratio,
  subtract,
  times,
} from '../../../core/quantity/quantity.ts';
import type { ScaleText, Typed } from '../../../core/run/event.ts';
import type { EntryOf } from './entry.ts';
import { massFrom } from './exact-text.ts';
import { readingAgain } from './reading-again.ts';
import {
  type Expected,
  putIn,
  type Replayed,
  scaleAt,
  stepNumbered,
  vesselAt,
  weighingAt,
} from './replayed.ts';
import {
  isPresent,
  judgedText,
  newPour,
  readInto,
  type Standing,
  type Weighing,
  withPours,
} from './weighing.ts';

export const readingText = (reading: Typed, scales: readonly ScaleText[]) => {
  const again = readingAgain(reading, scales);
  if (again === undefined) throw new RangeError('the typed text is not a reading of that scale');
  const { typed, scale } = reading;
  return { mass: again.mass, text: { typed, unit: again.unit, mass: toExact(again.mass), scale } };
};

const standingAt = (replayed: Replayed, n: number): Standing => {
  const name = vesselAt(replayed, n);
  return { name, ...(replayed.vessels.get(name) ?? { tare: noMass, contents: noMass }) };
};

/** Nothing is left to do at an addition, unless a witness is. */
export const finishLine = (replayed: Replayed, n: number, at: string): void => {
  replayed.weighings.set(n, { ...weighingAt(replayed, n), isSettled: true });
  if (!stepNumbered(replayed, n).step.witness) replayed.doneAt.set(n, at);
};

const tenDivisions = ratio(10n);

/** A cup is weighed again after it was tipped where the window is narrower than ten divisions. */
export const isResidueDue = (replayed: Replayed, weighing: Weighing): boolean => {
  const { line, way, part } = weighing;
  if (way !== 'cup' || part !== 'display' || !isPresent(weighing)) return false;
  const division = massFrom(scaleAt(replayed, line.step).readability);
  return isLess(subtract(line.high, line.low), times(division, tenDivisions));
};

/** What stood in a vessel that was read gross is counted on from here, but for the pour that was read. */
const fixOthers = (replayed: Replayed, vessel: string, step: number): void => {
  for (const [n, weighing] of replayed.weighings) {
    const fixed = withPours(weighing, pour =>
      pour.where === vessel ? { ...pour, isFixed: true } : pour,
    );
    replayed.weighings.set(n, n === step ? { ...fixed, pour: weighing.pour } : fixed);
  }
};

/** Judged anew, whatever was settled before. Answers what was lifted out. */
const afterWeighing = (
  replayed: Replayed,
  after: Weighing,
  shown: Mass,
  { step, at }: { readonly step: number; readonly at: string },
): Mass => {
  const before = weighingAt(replayed, step).pour.net;
  const read = readInto(
    { ...after, isAccepted: false, isSettled: false },
    shown,
    standingAt(replayed, step),
  );
  replayed.weighings.set(step, read);
  replayed.doneAt.delete(step);
  if (read.part !== 'before' && read.way === 'gross')
    fixOthers(replayed, vesselAt(replayed, step), step);
  const isWeighed = read.part !== 'before' && read.verdict === 'in';
  if (isWeighed && !isResidueDue(replayed, read)) finishLine(replayed, step, at);
  putIn(replayed, step, subtract(read.pour.net, before));
  return subtract(before, read.pour.net);
};

export const ofReading = (replayed: Replayed, entry: EntryOf<'reading-taken'>): Expected => {
  const { step, way, part } = entry;
  const { mass, text } = readingText(entry.reading, replayed.scales);
  const weighing = weighingAt(replayed, step);
  afterWeighing(replayed, { ...weighing, way, part, seq: entry.seq }, mass, entry);
  return {
    reading: text,
    vessel: vesselAt(replayed, step),
    lot: weighing.pour.lot,
    judged: judgedText(weighingAt(replayed, step)),
  };
};

export const ofTakenBack = (replayed: Replayed, entry: EntryOf<'taken-back'>): Expected => {
  const { step, way } = entry;
  const { mass, text } = readingText(entry.reading, replayed.scales);
  const part = way === 'difference' ? 'after' : 'display';
  if (replayed.offered?.step !== step)
    throw new RangeError('something was taken back before it was said what could be done');
  const weighing = weighingAt(replayed, step);
  const lifted = afterWeighing(replayed, { ...weighing, way, part, seq: entry.seq }, mass, entry);
  const after = weighingAt(replayed, step);
  const pour = { ...after.pour, waste: add(after.pour.waste, lifted) };
  replayed.weighings.set(step, { ...after, pour });
  return { reading: text, lifted: toExact(lifted), judged: judgedText(after) };
};

export const ofVessel = (
  replayed: Replayed,
  { vessel, reading }: EntryOf<'vessel-weighed'>,
): Expected => {
  const stated = replayed.sheet.phases.find(
    each => each.vessel.name === vessel && each.vessel.tare !== undefined,
  );
  const read = reading && readingText(reading, replayed.scales);
  const tare = read?.mass ?? stated?.vessel.tare;
  if (tare === undefined || replayed.vessels.has(vessel))
    throw new RangeError('a vessel is weighed once');
  replayed.vessels.set(vessel, { tare, contents: noMass });
  return { tare: toExact(tare), reading: read?.text };
};

export const ofLot = (replayed: Replayed, { step, lot }: EntryOf<'lot-identified'>): Expected => {
  const planned = stepNumbered(replayed, step).step;
  if (planned.kind !== 'add' && planned.kind !== 'adjust')
    throw new RangeError('the step takes no lot');
  replayed.lots.set(step, lot);
  const weighing = replayed.weighings.get(step);
  if (weighing !== undefined) replayed.weighings.set(step, newPour(weighing, lot));
  return { material: planned.material };
};

export const ofAccepted = (
  replayed: Replayed,
  { step, what, at }: EntryOf<'accepted'>,
): Expected => {
  if (what === 'overdue' || what === 'out-of-limits') return { what };
  const weighing = weighingAt(replayed, step);
  const isOver = weighing.verdict === 'over';
  if (isOver && weighing.isGone !== true && replayed.offered?.step !== step)
    throw new RangeError('too much was accepted before it was said what could be done');
  replayed.weighings.set(step, { ...weighing, isAccepted: true, isGone: false });
  finishLine(replayed, step, at);
  return { what: isOver ? 'over' : 'under' };
};

/** Witnessed or not: the line is done with it. Whose key signed is a claim of its own. */
export const ofWitness = (
  replayed: Replayed,
  entry: EntryOf<'unwitnessed' | 'witnessed'>,
): Expected => {
  const { step, at } = entry;
  if (entry.type === 'witnessed' && entry.witness === entry.by)
    throw new RangeError('nobody is a witness of their own work');
  const { isSettled } = weighingAt(replayed, step);
  if (!isSettled || replayed.doneAt.has(step))
    throw new RangeError('the line was not waiting for a witness');
  replayed.doneAt.set(step, at);
  return {};
};

export const ofTared = (replayed: Replayed, { step }: EntryOf<'tared'>): Expected => {
  const weighing = weighingAt(replayed, step);
  replayed.weighings.set(step, newPour(weighing, weighing.pour.lot));
  return {};
};
