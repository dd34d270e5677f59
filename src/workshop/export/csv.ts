/** A batch record as comma-separated values. */
import type { Addendum } from '../../core/result/addendum.ts';
import type { AdditionText, BatchRecord, LotMass } from '../../core/result/record.ts';
import type { Deviation } from '../../core/run/state.ts';
import type { SignatureHeader } from '../verify/formats.ts';
import { formatLine } from './csv-cell.ts';
import { eventRow, stepName } from './csv-event.ts';
import { type CsvRow, csvColumns, decimalCell } from './csv-row.ts';
import { viewOf } from './html.ts';
import type { More, RecordView } from './show-record.ts';
import { type Additions, additionsAt } from './sizes.ts';
import { stepsOf } from './step-title.ts';

const batchRow = ({ sheet, plan, result }: BatchRecord): CsvRow => ({
  kind: 'batch',
  at: result.closed,
  by: result.people.join(', '),
  what: sheet.name,
  value: String(result.yield?.actual ?? 0),
  unit: 'pieces',
  total_g: decimalCell(result.massIn),
  target_g: decimalCell(plan.batchMass),
  verdict: result.outcome,
  text: [`${sheet.code} revision ${sheet.revision}`, result.reason].filter(Boolean).join(': '),
});

const lotRow = (addition: CsvRow, { lot, mass, waste }: LotMass): CsvRow => ({
  kind: 'lot used',
  step: addition.step,
  phase: addition.phase,
  what: addition.what,
  lot,
  total_g: decimalCell(mass),
  waste_g: decimalCell(waste),
});

/** The addition with its target and window as they were at the end, then each lot that went in. */
const additionRows = (
  view: RecordView,
  { step, phase, scale }: AdditionText,
  last: Additions,
): readonly CsvRow[] => {
  const found = view.record.result.additions.find(each => each.step === step);
  const { target, low, high } = last.get(step) ?? {};
  const addition: CsvRow = {
    kind: 'addition',
    step: String(step),
    phase,
    what: stepName(view, step),
    scale,
    total_g: decimalCell(found?.net ?? '0'),
    target_g: decimalCell(target),
    low_g: decimalCell(low),
    high_g: decimalCell(high),
    verdict: found?.verdict ?? 'not weighed',
  };
  return [addition, ...(found?.lots ?? []).map(each => lotRow(addition, each))];
};

const deviationUnit = (view: RecordView, { what, step }: Deviation): string | undefined => {
  const found = stepsOf(view)[step - 1]?.step;
  switch (what) {
    case 'under':
    case 'over':
    case 'adjust-over':
      return 'g';
    case 'overdue':
    case 'hold-early':
    case 'hold-late':
      return 's';
    case 'out-of-limits':
      return found?.kind === 'measure' ? found.unit : undefined;
    default:
      return undefined;
  }
};

const deviationRow = (view: RecordView, deviation: Deviation): CsvRow => ({
  kind: 'deviation',
  at: deviation.at,
  by: deviation.by,
  // Step 0 is what comes before the first.
  step: deviation.step === 0 ? undefined : String(deviation.step),
  phase: stepsOf(view)[deviation.step - 1]?.phase,
  what: stepName(view, deviation.step),
  value: decimalCell(deviation.found),
  unit: deviationUnit(view, deviation),
  least: decimalCell(deviation.least),
  most: decimalCell(deviation.most),
  verdict: deviation.what.replaceAll('-', ' '),
  text: deviation.reason,
});

const signatureRow = ({ signer, meaning, at, kid }: SignatureHeader): CsvRow => ({
  kind: 'signature',
  at,
  by: signer,
  what: meaning,
  text: `key ${kid}`,
});

const addendumRow = ({ kind, text, refers, at, by }: Addendum): CsvRow => ({
  kind: 'addendum',
  at,
  by,
  what: kind,
  value: refers === undefined ? undefined : String(refers),
  unit: refers === undefined ? undefined : 'deviation',
  text,
});

const rowsOf = (view: RecordView, { signatures, addenda }: More): readonly CsvRow[] => {
  const { record, entries } = view;
  const at = additionsAt(view);
  return [
    batchRow(record),
    ...record.plan.additions.flatMap(each => additionRows(view, each, at(Infinity))),
    ...entries.map(entry => eventRow(view, entry, at(entry.seq))),
    ...record.result.deviations.map(each => deviationRow(view, each)),
    ...addenda.map(addendumRow),
    ...signatures.map(signatureRow),
  ];
};

/**
 * The record as CSV (RFC 4180: CRLF, a header, UTF-8 without a byte order mark): the batch, its
 * additions with their lots, every event, the deviations, what was added after closing, the signatures. Every row names the batch,
 * and whether it is practice. Throws a RangeError for a record whose sheet cannot be read.
 */
export const recordCsv = (record: BatchRecord, more: More): string => {
  const every: CsvRow = { batch: record.batch, practice: record.practice ? 'yes' : 'no' };
  return [csvColumns, ...rowsOf(viewOf(record), more).map(row => lineOf({ ...every, ...row }))]
    .map(formatLine)
    .join('');
};

const lineOf = (row: CsvRow): readonly (string | undefined)[] =>
  csvColumns.map(column => row[column]);
