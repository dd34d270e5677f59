import { mkdirSync, renameSync, rmSync, symlinkSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, test } from 'vitest';
import type { ClaimName } from '../../../src/workshop/verify/claim.ts';
import { verifyBatch } from '../../../src/workshop/verify/verify-batch.ts';
import { type Json, makePerson, type Written, writeWorkshop } from '../../helpers/record.ts';
import { edit, joined, linesOf, notHolding, statusOf } from '../../helpers/tamper.ts';

test('a signed batch written by hand from the documented formats is good', () => {
  const report = verifyBatch(writeWorkshop().folder);
  expect(report.claims.filter(each => each.state !== 'holds')).toEqual([]);
  expect(report).toMatchObject({ batch: 'PRF-2027-001', verdict: 'good', status: 0 });
});

test('a practice batch is good where it belongs', () => {
  expect(verifyBatch(writeWorkshop({ practice: true }).folder)).toMatchObject({ status: 0 });
});

test('every claim is made of a good batch', () => {
  const claims = new Set(verifyBatch(writeWorkshop().folder).claims.map(each => each.claim));
  const names: readonly ClaimName[] = [
    'record',
    'number',
    'events',
    'journal',
    'sheet',
    'plan',
    'verdicts',
    'result',
    'closed',
    'signature',
    'signed',
    'added',
    'state',
    'ledger',
    'register',
  ];
  expect([...claims]).toEqual(names);
});

/** What does not hold, and the status, after something was done to a good workshop. */
const after = (...steps: readonly ((written: Written) => void)[]): readonly [string[], number] => {
  const written = writeWorkshop();
  for (const step of steps) step(written);
  return [notHolding(written.folder), statusOf(written.folder)];
};

const without =
  (...names: readonly string[]) =>
  (written: Written) =>
    names.forEach(name => rmSync(written.path(name)));

const cutTo = (name: string, count: number) => (written: Written) =>
  edit(written, name, text => joined(linesOf(text).slice(0, count)));

describe('closing that is not finished is status 4, never good', () => {
  test('while the batch is open', () => {
    const open = without('record.json', 'record.sig.json', 'ledger.jsonl');
    expect(after(open, cutTo('journal.jsonl', 5))).toEqual([['finished: still-open'], 4]);
  });

  test('before the record is written', () => {
    expect(after(without('record.json', 'record.sig.json', 'ledger.jsonl'))).toEqual([
      ['finished: no-record'],
      4,
    ]);
  });

  test('before the record is in the ledger', () => {
    expect(after(without('record.sig.json', 'ledger.jsonl'))).toEqual([
      ['closed: not-in-ledger', 'signature: unsigned'],
      4,
    ]);
  });

  test('before it is signed', () => {
    expect(after(without('record.sig.json'), cutTo('ledger.jsonl', 1))).toEqual([
      ['signature: unsigned'],
      4,
    ]);
  });

  test('before the signature is in the ledger', () => {
    expect(after(cutTo('ledger.jsonl', 1))).toEqual([['signed: not-in-ledger'], 4]);
  });

  test('but what the ledger knows and is gone is no unfinished closing', () => {
    expect(after(without('record.json', 'record.sig.json'))).toEqual([['record: missing'], 1]);
    expect(after(without('record.json', 'ledger.jsonl'))).toEqual([['record: missing'], 1]);
    expect(after(without('journal.jsonl'))).toEqual([['journal: missing'], 1]);
  });
});

describe('files that are missing or hostile', () => {
  test('no folder, an empty folder, a file in its place', () => {
    const { room, path } = writeWorkshop();
    mkdirSync(join(room, 'batches', 'EMPTY'));
    expect(verifyBatch(join(room, 'batches', 'NONE'))).toMatchObject({ status: 3 });
    expect(verifyBatch(join(room, 'batches', 'EMPTY'))).toMatchObject({ status: 3 });
    expect(verifyBatch(path('record.json'))).toMatchObject({ status: 3 });
  });

  test('a link in place of a file is not followed', () => {
    const written = writeWorkshop();
    renameSync(written.path('record.json'), join(written.room, 'elsewhere.json'));
    symlinkSync(join(written.room, 'elsewhere.json'), written.path('record.json'));
    expect(verifyBatch(written.folder)).toMatchObject({ status: 3 });
  });

  test.each<readonly [string, string]>([
    ['nothing', ''],
    ['no JSON', '{'],
    ['a number', '1\n'],
    ['a deep nest', `${'['.repeat(100_000)}${']'.repeat(100_000)}`],
    ['a null byte', '\0'],
    ['a mark before it', '\uFEFF{}\n'],
    ['a prototype', '{"__proto__": {"type": 1}}\n'],
  ])('%s as any of the files', (_name, text) => {
    for (const name of [
      'record.json',
      'record.sig.json',
      'journal.jsonl',
      'ledger.jsonl',
      'register.jsonl',
    ]) {
      const written = writeWorkshop();
      writeFileSync(written.path(name), text);
      expect(statusOf(written.folder), name).toBeGreaterThan(0);
    }
  });

  test('bytes that are no text', () => {
    const written = writeWorkshop();
    writeFileSync(written.path('record.json'), Buffer.from([0xc3, 0x28]));
    expect(notHolding(written.folder)).toContain('record: not-text');
  });

  test('a result nested without end, signed', () => {
    const deep = JSON.parse(`${'{"a":'.repeat(500)}1${'}'.repeat(500)}`) as Json;
    expect(
      notHolding(writeWorkshop({ record: record => ({ ...record, result: deep }) }).folder),
    ).toEqual(['record: other-form']);
  });

  test('numbers without end in a reading', () => {
    const huge = '9'.repeat(5000);
    const events = (list: Json[]): Json[] =>
      list.map(each =>
        each['type'] === 'reading-taken'
          ? { ...each, reading: { typed: huge, unit: 'g', mass: huge, scale: 'big' } }
          : each,
      );
    expect(notHolding(writeWorkshop({ events }).folder)).toEqual(['verdicts: not-workable']);
  });
});

test('nothing that a file says can speak to the terminal', () => {
  const signer = makePerson('Ada\u001b[2J\u009b\u202e');
  const { room, folder } = writeWorkshop({ signer });
  const copy = join(room, 'batches', 'PRF\u001b[2J');
  renameSync(folder, copy);
  const { batch, claims } = verifyBatch(copy);
  expect(JSON.stringify([batch, claims])).not.toMatch(/\\u001b|\u009b|\u202e/);
});
