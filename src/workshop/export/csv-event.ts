/** The events of a batch as rows: every one of them, those with numbers in the columns of theirs. */
import { toExact } from '../../core/quantity/decimal.ts';
import { isCount } from '../../core/run/read-tally.ts';
import { titleOfStep } from '../../core/sheet/step-title.ts';
import { readInstant, secondsBetween } from '../../core/time/instant.ts';
import type { Entry, EntryOf } from '../verify/recompute/entry.ts';
import { type CsvRow, decimalCell } from './csv-row.ts';
import { nameOf, type RecordView } from './show-record.ts';
import type { Additions } from './sizes.ts';
import { stepsOf } from './step-title.ts';

type Reading = EntryOf<'reading-taken'> | EntryOf<'taken-back'> | EntryOf<'amended'>;

const partText = ({ judged }: Reading): string | undefined =>
  judged?.part === undefined ? undefined : `this weighing alone: ${judged.part}`;

/** What every reading says, with the target and the window as they were when it was taken. */
const readingCells = (entry: Reading, additions: Additions): CsvRow => {
  const { reading, judged, step } = entry;
  const { target, low, high } = additions.get(step) ?? {};
  return {
    scale: reading.scale,
    typed: reading.typed,
    unit: reading.unit,
    reading_g: decimalCell(reading.mass),
    net_g: decimalCell(judged?.net),
    total_g: decimalCell(judged?.total),
    target_g: decimalCell(target),
    low_g: decimalCell(low),
    high_g: decimalCell(high),
    verdict: judged?.verdict,
    text: partText(entry),
  };
};

const measuredCells = (view: RecordView, entry: EntryOf<'measured'>): CsvRow => {
  const step = stepsOf(view)[entry.step - 1]?.step;
  const { typed, value, verdict } = entry;
  const cells = { typed, value: decimalCell(value), verdict };
  if (step?.kind !== 'measure') return cells;
  return {
    ...cells,
    what: step.what,
    unit: step.unit,
    least: step.least && decimalCell(toExact(step.least)),
    most: step.most && decimalCell(toExact(step.most)),
  };
};

const holdBounds = (view: RecordView, n: number): CsvRow => {
  const step = stepsOf(view)[n - 1]?.step;
  return step?.kind === 'hold'
    ? { unit: 's', least: step.least.toString(), most: step.most?.toString() }
    : {};
};

/** How long a hold lasted, in whole seconds. */
const heldSeconds = ({ entries }: RecordView, ended: EntryOf<'hold-ended'>): string | undefined => {
  const started = entries.findLast(
    each => each.type === 'hold-started' && each.step === ended.step && each.seq < ended.seq,
  );
  const [from, to] = [started && readInstant(started.at), readInstant(ended.at)];
  return from === undefined || to === undefined ? undefined : String(secondsBetween(from, to));
};

const tallyUnit = ({ item }: EntryOf<'tallied'>): string => (isCount(item) ? 'pieces' : 'g');

const ownText = (entry: Entry): string | undefined => {
  if ('reason' in entry) return entry.reason;
  return 'text' in entry ? entry.text : undefined;
};

const addingCells = (view: RecordView, entry: Entry, additions: Additions): CsvRow | undefined => {
  switch (entry.type) {
    case 'reading-taken': {
      const { way, part, lot, vessel } = entry;
      return { kind: 'reading', ...readingCells(entry, additions), way, part, lot, vessel };
    }
    case 'taken-back':
      return {
        ...readingCells(entry, additions),
        way: entry.way,
        waste_g: decimalCell(entry.lifted),
      };
    case 'amended':
      return {
        ...readingCells(entry, additions),
        text: `puts right number ${entry.amends}: ${entry.reason}`,
      };
    case 'lot-identified':
      return { kind: 'lot', what: nameOf(view, entry.material), lot: entry.lot };
    case 'vessel-weighed':
      return {
        kind: 'vessel',
        vessel: entry.vessel,
        scale: entry.reading?.scale,
        typed: entry.reading?.typed,
        unit: entry.reading?.unit,
        reading_g: decimalCell(entry.tare),
        text: entry.reading === undefined ? 'empty, as the sheet says' : 'empty',
      };
    case 'adjusted':
      return { kind: 'adjust', typed: entry.typed, net_g: decimalCell(entry.mass), lot: entry.lot };
    case 'adjust-finished':
      return { total_g: decimalCell(entry.total), text: entry.reason };
    default:
      return undefined;
  }
};

const otherCells = (view: RecordView, entry: Entry): CsvRow => {
  switch (entry.type) {
    case 'begun':
      return { what: view.record.sheet.name, text: entry.scaleReason };
    case 'measured':
      return { kind: 'measure', ...measuredCells(view, entry) };
    case 'hold-started':
      return holdBounds(view, entry.step);
    case 'hold-ended':
      return {
        ...holdBounds(view, entry.step),
        value: heldSeconds(view, entry),
        verdict: entry.verdict,
        text: entry.reason,
      };
    case 'tallied':
      return {
        kind: 'tally',
        what: entry.item,
        typed: entry.typed,
        value: decimalCell(entry.value),
        unit: tallyUnit(entry),
        text: entry.reason,
      };
    case 'remedy-chosen':
      return {
        target_g: decimalCell(entry.batchMass),
        value: String(entry.pieces),
        unit: 'pieces',
        text: `${entry.kind}, times ${entry.stretch}: ${entry.reason}`,
      };
    case 'slip-answered':
      return { text: `${entry.slip}, asked of number ${entry.about}: ${entry.answer}` };
    case 'accepted':
      return { verdict: entry.what, text: entry.reason };
    case 'turned-to':
      return { phase: entry.phase };
    case 'handed-over':
      return { text: `to ${entry.to}` };
    case 'closed':
      return { verdict: entry.outcome, text: entry.reason };
    default:
      return { text: ownText(entry) };
  }
};

const stepCells = (view: RecordView, entry: Entry): CsvRow => {
  if (!('step' in entry) || entry.step === undefined) return {};
  const found = stepsOf(view)[entry.step - 1];
  return {
    step: String(entry.step),
    phase: found?.phase,
    what: found && stepName(view, entry.step),
  };
};

/** What a step is about: a material by its name, else the sheet's own words. */
export const stepName = (view: RecordView, n: number): string => {
  const step = stepsOf(view)[n - 1]?.step;
  if (step === undefined) return '';
  return step.kind === 'add' || step.kind === 'adjust'
    ? nameOf(view, step.material)
    : titleOfStep(step);
};

/** One event; its kind is a word of its own for what is weighed or counted, else the event's name. */
export const eventRow = (view: RecordView, entry: Entry, additions: Additions): CsvRow => ({
  kind: entry.type.replaceAll('-', ' '),
  seq: String(entry.seq),
  at: entry.at,
  by: entry.by,
  ...stepCells(view, entry),
  ...(addingCells(view, entry, additions) ?? otherCells(view, entry)),
});
