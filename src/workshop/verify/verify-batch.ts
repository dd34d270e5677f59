/** Verifies one batch: every claim is looked at and reported, then one verdict. */
import { realpathSync, statSync } from 'node:fs';
import { basename, dirname, join } from 'node:path';
import type { BatchRecord } from '../../core/result/record.ts';
import { listAddenda } from './addenda-folder.ts';
import { addendumLinesOf, type Books, closedLinesOf, readBooks, signedLinesOf } from './books.ts';
import { readChain, sha256 } from './chain.ts';
import { type Counted, checkAddenda } from './check-addenda.ts';
import { checkEvents } from './check-events.ts';
import { checkResult } from './check-result.ts';
import { checkSignatures } from './check-signatures.ts';
import { checkState } from './check-state.ts';
import { checkWitnesses } from './check-witnesses.ts';
import {
  type Claim,
  type ClaimName,
  fails,
  harmless,
  holds,
  type Judgement,
  judgeClaims,
  notReached,
  unfinished,
} from './claim.ts';
import { fileNames } from './formats.ts';
import { type FileRead, readBounded, textOf } from './read-bounded.ts';
import { readRecord } from './read-record.ts';

export interface BatchReport extends Judgement {
  readonly batch: string;
  readonly claims: readonly Claim[];
}

const report = (batch: string, claims: readonly Claim[]): BatchReport => ({
  batch: harmless(batch),
  ...judgeClaims(claims),
  claims,
});

interface Files {
  readonly journal: FileRead;
  readonly record: FileRead;
  readonly signatures: FileRead;
}

const readFiles = (folder: string): Files => ({
  journal: readBounded(join(folder, fileNames.journal)),
  record: readBounded(join(folder, fileNames.record)),
  signatures: readBounded(join(folder, fileNames.signatures)),
});

const checkReadable = (files: Files): Claim | undefined => {
  for (const [name, read] of Object.entries(files)) {
    if (read.kind === 'unreadable') {
      return fails('files', 'unreadable', `The ${name} of the batch cannot be read: ${read.why}.`);
    }
  }
  return files.journal.kind === 'missing' && files.record.kind === 'missing'
    ? fails('files', 'not-ours', 'There is neither a journal nor a record in the folder.')
    : undefined;
};

const bytesOf = (read: FileRead): Buffer | undefined =>
  read.kind === 'read' ? read.bytes : undefined;

const inLedger = (books: Books, batch: string): boolean =>
  [closedLinesOf, signedLinesOf, addendumLinesOf].some(linesOf => linesOf(books, batch).length > 0);

const hasAddenda = (folder: string): boolean => listAddenda(folder)?.numbers.length !== 0;

/** A batch without a record: still open, or closed a moment ago; but the ledger may know better. */
const checkWithoutRecord = (
  folder: string,
  { journal, signatures }: Files,
  books: Books,
): Claim => {
  if (inLedger(books, basename(folder)) || signatures.kind === 'read' || hasAddenda(folder)) {
    return fails('record', 'missing', 'The batch was closed, but its record is gone.');
  }
  const chain = readChain(bytesOf(journal) ?? Buffer.alloc(0));
  if (!chain.ok)
    return fails('journal', chain.code, `Line ${chain.line} of the journal ${chain.text}.`);
  return chain.lines.at(-1)?.type === 'closed'
    ? unfinished(
        'finished',
        'no-record',
        'The batch is closed, but its record is not written yet; resume does it.',
      )
    : unfinished('finished', 'still-open', 'The batch is still open.');
};

const checkNumber = (folder: string, { batch, practice }: BatchRecord): Claim => {
  if (batch !== basename(folder)) {
    return fails('number', 'other-batch', 'The record is of another batch than its folder says.');
  }
  if (practice !== batch.startsWith('P-')) {
    return fails(
      'number',
      'practice',
      'The number and the record disagree on whether this was practice.',
    );
  }
  return practice && basename(dirname(dirname(folder))) !== 'practice'
    ? fails('number', 'practice', 'A practice batch stands among the real ones.')
    : holds(
        'number',
        practice ? 'A practice batch, where it belongs.' : 'Record, number and folder agree.',
      );
};

const checkClosed = (
  batch: string,
  bytes: Buffer,
  record: BatchRecord | undefined,
  { signatures }: Files,
  books: Books,
): Claim => {
  const [line, ...others] = closedLinesOf(books, batch);
  if (line === undefined) {
    return signatures.kind === 'read' || inLedger(books, batch)
      ? fails(
          'closed',
          'not-in-ledger',
          'The record is signed, but the ledger does not know that it was closed.',
        )
      : unfinished(
          'closed',
          'not-in-ledger',
          'The record is not in the ledger yet; resume enters it.',
        );
  }
  if (others.length > 0)
    return fails('closed', 'twice', 'The ledger says twice that the batch was closed.');
  if (line.record !== sha256(bytes)) {
    return fails(
      'closed',
      'other-record',
      `The record is not the one in line ${line.seq} of the ledger.`,
    );
  }
  return record !== undefined && line.journal !== record.journal.hash
    ? fails(
        'closed',
        'other-journal',
        `The events are not those in line ${line.seq} of the ledger.`,
      )
    : holds('closed', `The record is the one in line ${line.seq} of the ledger.`);
};

// What stands inside a record, for one that cannot be read.
const insideNames: readonly ClaimName[] = [
  'number',
  'events',
  'journal',
  'sheet',
  'plan',
  'verdicts',
  'result',
];

/** What a look at a batch found, with the very things that it looked at. */
interface Inspected {
  readonly claims: readonly Claim[];
  readonly files: Files;
  /** Undefined where it cannot be read. */
  readonly record?: BatchRecord | undefined;
  readonly counted: readonly Counted[];
}

const inspectRecord = (folder: string, files: Files, bytes: Buffer, books: Books): Inspected => {
  const batch = basename(folder);
  const { claim, record } = readRecord(bytes);
  const inside =
    record === undefined
      ? insideNames.map(notReached)
      : [
          checkNumber(folder, record),
          ...checkEvents(record, bytesOf(files.journal)),
          ...checkResult(record),
          ...checkWitnesses(record, books),
        ];
  const source = bytesOf(files.signatures);
  const { claims: added, counted } = checkAddenda({ folder, batch, bytes, record, books });
  const claims = [
    claim,
    ...inside,
    checkClosed(batch, bytes, record, files, books),
    ...checkSignatures(source && (textOf(source) ?? ''), { bytes, batch, books }),
    ...added,
    record === undefined ? notReached('state') : checkState(books, record, counted),
  ];
  return { claims, files, record, counted };
};

const inspectIn = (books: Books, folder: string): Inspected => {
  const files = readFiles(folder);
  const unreadable = checkReadable(files);
  if (unreadable !== undefined) return { claims: [unreadable], files, counted: [] };
  const bytes = bytesOf(files.record);
  return bytes === undefined
    ? { claims: [checkWithoutRecord(folder, files, books)], files, counted: [] }
    : inspectRecord(folder, files, bytes, books);
};

/** The claims on a batch that are its own; those on ledger and register belong to `books`. */
export const verifyBatchIn = (books: Books, folder: string): BatchReport =>
  report(basename(folder), inspectIn(books, folder).claims);

const realFolder = (path: string): string | undefined => {
  try {
    return statSync(path).isDirectory() ? realpathSync(path) : undefined;
  } catch {
    return undefined;
  }
};

/** A verified batch with all that its report rests on: nothing has to be read a second time. */
export interface Inspection extends Omit<Inspected, 'claims'> {
  readonly report: BatchReport;
  readonly books: Books;
}

const nowhere: Omit<Inspection, 'report'> = {
  books: { claims: [], ledger: [], byBatch: new Map(), keys: [] },
  files: {
    journal: { kind: 'missing' },
    record: { kind: 'missing' },
    signatures: { kind: 'missing' },
  },
  counted: [],
};

/** Verifies a batch as `verifyBatch` does, and hands out what it read. */
export const inspectBatch = (path: string): Inspection => {
  const folder = realFolder(path);
  if (folder === undefined) {
    const claims = [fails('files', 'missing', 'There is no such batch folder.')];
    return { ...nowhere, report: report(basename(path), claims) };
  }
  const books = readBooks(dirname(dirname(folder)));
  const { claims, ...read } = inspectIn(books, folder);
  return { ...read, books, report: report(basename(folder), [...claims, ...books.claims]) };
};

/**
 * Verifies the batch in a folder of the form …/batches/NUMBER, against the ledger and the register
 * beside `batches`. Never throws: whatever stands in the files is a finding.
 */
export const verifyBatch = (path: string): BatchReport => inspectBatch(path).report;
