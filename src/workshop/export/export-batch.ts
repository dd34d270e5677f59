/** What `export` hands out of a batch: the page, the table, or the record itself. */
import { basename, join, resolve } from 'node:path';
import type { Done } from '../../core/dialogue/bench.ts';
import type { BatchRecord } from '../../core/result/record.ts';
import { readBooks } from '../verify/books.ts';
import { checkAddenda } from '../verify/check-addenda.ts';
import { stateOf } from '../verify/check-state.ts';
import { fileNames, type SignatureHeader } from '../verify/formats.ts';
import { readBounded, textOf } from '../verify/read-bounded.ts';
import { readRecord } from '../verify/read-record.ts';
import { readHeader, readSignatures } from '../verify/signature.ts';
import { verifyBatch } from '../verify/verify-batch.ts';
import { recordCsv } from './csv.ts';
import { recordHtml } from './html.ts';
import type { More } from './show-record.ts';

export type ExportForm = 'html' | 'csv' | 'json';

const headersIn = (folder: string): readonly SignatureHeader[] => {
  const read = readBounded(join(folder, fileNames.signatures));
  const entries = read.kind === 'read' ? readSignatures(textOf(read.bytes) ?? '') : [];
  return (entries ?? []).flatMap(entry => readHeader(entry.protected) ?? []);
};

const moreOf = (folder: string, record: BatchRecord, bytes: Buffer): More => {
  const books = readBooks(resolve(folder, '..', '..'));
  const closed = { folder, batch: record.batch, bytes, record, books };
  return {
    signatures: headersIn(folder),
    addenda: checkAddenda(closed).counted.map(({ addendum }) => addendum),
    state: stateOf(books, record),
    head: books.ledger.at(-1),
  };
};

const readableOf = (folder: string, form: 'html' | 'csv', bytes: Buffer): Done<Uint8Array> => {
  const { status, claims } = verifyBatch(folder);
  const broken = claims.find(each => each.state === 'fails');
  const { record } = readRecord(bytes);
  if (record === undefined || status === 1 || status === 3) {
    const thing = form === 'html' ? 'page' : 'table';
    return {
      ok: false,
      why: `The record does not hold, so no ${thing} is made of it. ${broken?.text ?? ''}`,
    };
  }
  const write = form === 'csv' ? recordCsv : recordHtml;
  return { ok: true, value: Buffer.from(write(record, moreOf(folder, record, bytes))) };
};

/**
 * Exports the batch in a folder of the form …/batches/NUMBER. `json` is record.json, byte for byte;
 * `html` and `csv` are made only of a record that verifies, signed or not yet.
 */
export const exportBatch = (folder: string, form: ExportForm): Done<Uint8Array> => {
  const read = readBounded(join(folder, fileNames.record));
  if (read.kind !== 'read') {
    const why = read.kind === 'missing' ? 'it is not closed yet' : read.why;
    return { ok: false, why: `The record of ${basename(folder)} cannot be exported: ${why}.` };
  }
  return form === 'json' ? { ok: true, value: read.bytes } : readableOf(folder, form, read.bytes);
};
