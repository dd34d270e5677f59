/** What happens around an addition, event by event: vessel, lot, tare, readings. */
import { toExact } from '../../../core/quantity/decimal.ts';
import { add, type Mass, noMass, subtract } from '../../../core/quantity/quantity.ts';
import type { ScaleText, Typed } from '../../../core/run/event.ts';
import type { EntryOf } from './entry.ts';
import { readingAgain } from './reading-again.ts';
import { type Expected, putIn, type Replayed, stepNumbered, weighingAt } from './replayed.ts';
import { judgedText, newPour, readInto, type Weighing } from './weighing.ts';

const readingText = (reading: Typed, scales: readonly ScaleText[]) => {
  const again = readingAgain(reading, scales);
  if (again === undefined) throw new RangeError('the typed text is not a reading of that scale');
  const { typed, scale } = reading;
  return { mass: again.mass, text: { typed, unit: again.unit, mass: toExact(again.mass), scale } };
};

const vesselOf = (replayed: Replayed, n: number) => {
  const name = stepNumbered(replayed, n).phase?.vessel.name ?? '';
  return replayed.vessels.get(name) ?? { tare: noMass, contents: noMass };
};

const afterWeighing = (replayed: Replayed, n: number, after: Weighing, shown: Mass): Mass => {
  const before = weighingAt(replayed, n).pour.net;
  const read = readInto(after, shown, vesselOf(replayed, n));
  replayed.weighings.set(n, read);
  putIn(replayed, n, subtract(read.pour.net, before));
  return subtract(before, read.pour.net);
};

export const ofReading = (replayed: Replayed, entry: EntryOf<'reading-taken'>): Expected => {
  const { step, way, part } = entry;
  const { mass, text } = readingText(entry.reading, replayed.scales);
  const weighing = weighingAt(replayed, step);
  afterWeighing(replayed, step, { ...weighing, way, part, seq: entry.seq }, mass);
  return {
    reading: text,
    vessel: weighing.line.vessel,
    lot: weighing.pour.lot,
    judged: judgedText(weighingAt(replayed, step)),
  };
};

export const ofTakenBack = (replayed: Replayed, entry: EntryOf<'taken-back'>): Expected => {
  const { step, way } = entry;
  const { mass, text } = readingText(entry.reading, replayed.scales);
  const part = way === 'difference' ? 'after' : 'display';
  const lifted = afterWeighing(
    replayed,
    step,
    { ...weighingAt(replayed, step), way, part, seq: entry.seq },
    mass,
  );
  const after = weighingAt(replayed, step);
  const pour = { ...after.pour, waste: add(after.pour.waste, lifted) };
  replayed.weighings.set(step, { ...after, pour });
  return { reading: text, lifted: toExact(lifted), judged: judgedText(after) };
};

export const ofAmended = (
  replayed: Replayed,
  { step, seq, reading }: EntryOf<'amended'>,
): Expected => {
  const { mass, text } = readingText(reading, replayed.scales);
  const weighing = weighingAt(replayed, step);
  afterWeighing(replayed, step, { ...weighing, seq }, mass);
  return { amends: weighing.seq, reading: text, judged: judgedText(weighingAt(replayed, step)) };
};

export const ofVessel = (
  replayed: Replayed,
  { vessel, reading }: EntryOf<'vessel-weighed'>,
): Expected => {
  const phase = replayed.sheet.phases.find(each => each.vessel.name === vessel);
  const read = reading && readingText(reading, replayed.scales);
  const tare = read?.mass ?? phase?.vessel.tare;
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

export const ofTared = (replayed: Replayed, { step }: EntryOf<'tared'>): Expected => {
  const weighing = weighingAt(replayed, step);
  replayed.weighings.set(step, newPour(weighing, weighing.pour.lot));
  return {};
};
