import type { BatchRecord } from '../../core/result/record.ts';
import { type Claim, fails, holds } from './claim.ts';
import { recordMediaType } from './formats.ts';
import { textOf } from './read-bounded.ts';
import {
  count,
  flag,
  hash,
  isObject,
  isWrittenAsOurs,
  listOf,
  readJson,
  shape,
  text,
} from './shape.ts';

// In the order of the file.
// What stands inside plan and result is compared with what is worked out, so its kind is enough here.
const members = {
  type: text,
  batch: text,
  practice: flag,
  program: text,
  sheet: shape({ name: text, code: text, revision: count, text }),
  plan: isObject,
  events: listOf(isObject),
  journal: shape({ lines: count, hash }),
  result: isObject,
};

const recordShape = shape(members);

const isRecord = (value: unknown): value is BatchRecord =>
  recordShape(value) &&
  isObject(value) &&
  Object.keys(value).join() === Object.keys(members).join();

export interface RecordRead {
  readonly claim: Claim;
  readonly record?: BatchRecord;
}

const refused = (code: string, why: string): RecordRead => ({ claim: fails('record', code, why) });

const typeOf = (value: unknown): unknown => (isObject(value) ? value['type'] : undefined);

// In the one byte form each level indents by two, and a string cannot hold a line break.
const isNestedTooDeep = (source: string): boolean => /\n {41}/.test(source);

/** Reads record.json; only its one byte form is taken: JSON indented by two, a newline at the end. */
export const readRecord = (bytes: Buffer): RecordRead => {
  const source = textOf(bytes);
  if (source === undefined) return refused('not-text', 'record.json is not UTF-8 text.');
  const value = readJson(source);
  if (value === undefined) return refused('not-json', 'record.json is not JSON.');
  if (typeOf(value) !== recordMediaType) {
    return refused(
      'unknown-type',
      'record.json is not a batch record of a version that is known here.',
    );
  }
  if (!isRecord(value)) {
    return refused(
      'wrong-shape',
      'record.json lacks a part of a batch record, or holds one too many.',
    );
  }
  return !isNestedTooDeep(source) && isWrittenAsOurs(value, source)
    ? {
        claim: holds('record', 'record.json is a batch record, written as ours are.'),
        record: value,
      }
    : refused('other-form', 'record.json is not written byte for byte as our records are.');
};
