/** What `export` hands out of a batch: the page, the table, or the record itself. */
import { basename, join } from 'node:path';
import type { Done } from '../../core/dialogue/bench.ts';
import { stateOf } from '../verify/check-state.ts';
import { fileNames, type SignatureHeader } from '../verify/formats.ts';
import { type FileRead, readBounded, textOf } from '../verify/read-bounded.ts';
import { readHeader, readSignatures } from '../verify/signature.ts';
import { inspectBatch } from '../verify/verify-batch.ts';
import { recordCsv } from './csv.ts';
import { recordHtml } from './html.ts';

export type ExportForm = 'html' | 'csv' | 'json';

const bytesOf = (folder: string, read: FileRead): Done<Uint8Array> => {
  if (read.kind === 'read') return { ok: true, value: read.bytes };
  const why = read.kind === 'missing' ? 'it is not closed yet' : read.why;
  return { ok: false, why: `The record of ${basename(folder)} cannot be exported: ${why}.` };
};

const headersIn = (read: FileRead): readonly SignatureHeader[] => {
  const entries = read.kind === 'read' ? readSignatures(textOf(read.bytes) ?? '') : [];
  return (entries ?? []).flatMap(entry => readHeader(entry.protected) ?? []);
};

// Only of what was verified, byte for byte: another process may write to the folder meanwhile.
const readableOf = (folder: string, form: 'html' | 'csv'): Done<Uint8Array> => {
  const { report, files, record, counted, books } = inspectBatch(folder);
  const bytes = bytesOf(folder, files.record);
  if (!bytes.ok) return bytes;
  if (record === undefined || report.status === 1 || report.status === 3) {
    const broken = report.claims.find(each => each.state === 'fails');
    const thing = form === 'html' ? 'page' : 'table';
    return {
      ok: false,
      why: `The record does not hold, so no ${thing} is made of it. ${broken?.text ?? ''}`,
    };
  }
  const write = form === 'csv' ? recordCsv : recordHtml;
  const more = {
    signatures: headersIn(files.signatures),
    addenda: counted.map(({ addendum }) => addendum),
    state: stateOf(books, record),
    head: books.ledger.at(-1),
  };
  return { ok: true, value: Buffer.from(write(record, more)) };
};

/**
 * Exports the batch in a folder of the form …/batches/NUMBER. `json` is record.json, byte for byte;
 * `html` and `csv` are made only of a record that verifies, signed or not yet.
 */
export const exportBatch = (folder: string, form: ExportForm): Done<Uint8Array> =>
  form === 'json'
    ? bytesOf(folder, readBounded(join(folder, fileNames.record)))
    : readableOf(folder, form);
