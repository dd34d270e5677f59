import {
  cpSync,
  existsSync,
  readdirSync,
  readFileSync,
  rmSync,
  truncateSync,
  writeFileSync,
} from 'node:fs';
import { join } from 'node:path';
import { beforeEach, describe, expect, test } from 'vitest';
import { enrol } from '../../src/workshop/enrol.ts';
import { finishClosing } from '../../src/workshop/finish-closing.ts';
import { readLedger } from '../../src/workshop/ledger.ts';
import { readJournal } from '../../src/workshop/replay-journal.ts';
import { type SignatureWish, signBatch } from '../../src/workshop/sign-batch.ts';
import { verifyBatch } from '../../src/workshop/verify/verify-batch.ts';
import type { Workshop } from '../../src/workshop/workshop.ts';
import { begun, closedBatch, workshopIn } from '../helpers/batch.ts';
import { cutAt } from '../helpers/failing-disk.ts';
import { tempDir } from '../helpers/temp-dir.ts';

// Invented data throughout.
const passphrase = 'a spoon of salt';
const batch = 'INV-2027-001';
const made: SignatureWish = { batch, name: 'Ana', passphrase, meaning: 'made by' };

let folder = '';
let keysDir = '';
let workshop: Workshop;

beforeEach(() => {
  folder = tempDir();
  keysDir = tempDir();
  workshop = workshopIn(folder);
});

const enrolled = (name: string, where = workshop): void => {
  expect(enrol(where, keysDir, name, passphrase)).toMatchObject({ ok: true });
};

const inBatch = (name: string): string => join(folder, 'batches', batch, name);

const ledgerTypes = (): string[] => {
  const ledger = readLedger(workshop);
  if (!ledger.ok) throw new Error(ledger.why);
  return ledger.value.map(line => line.type);
};

/** Every file of the workshop by its bytes, locks and copies included. */
const allFiles = (): Record<string, string> =>
  Object.fromEntries(
    readdirSync(folder, { recursive: true, withFileTypes: true })
      .filter(entry => entry.isFile())
      .map(entry => join(entry.parentPath, entry.name))
      .toSorted()
      .map(path => [path, readFileSync(path, 'utf8')]),
  );

const verdict = (): string => verifyBatch(inBatch('')).verdict;

describe('closing', () => {
  test('is finished in the order record, ledger', () => {
    closedBatch(workshop);
    expect(existsSync(inBatch('record.json'))).toBe(false);
    const closed = finishClosing(workshop, batch);
    if (!closed.ok) throw new Error(closed.why);
    expect(readFileSync(inBatch('record.json'))).toEqual(closed.value.record);
    expect(ledgerTypes()).toEqual(['closed']);
  });

  test('done twice changes nothing', () => {
    closedBatch(workshop);
    expect(finishClosing(workshop, batch).ok).toBe(true);
    const before = allFiles();
    expect(finishClosing(workshop, batch).ok).toBe(true);
    expect(allFiles()).toEqual(before);
  });

  test('writes the events as they stand in the journal, hashes and all', () => {
    closedBatch(workshop);
    expect(finishClosing(workshop, batch).ok).toBe(true);
    const record: unknown = JSON.parse(readFileSync(inBatch('record.json'), 'utf8'));
    const lines = readFileSync(inBatch('journal.jsonl'), 'utf8').trimEnd().split('\n');
    const journal = readJournal(workshop, batch);
    expect(record).toMatchObject({
      batch,
      events: lines.map(line => JSON.parse(line) as unknown),
      journal: { lines: lines.length, hash: journal.ok ? journal.value.head : '' },
    });
  });

  test('of a batch that is still open is refused', () => {
    begun(workshop).release();
    expect(finishClosing(workshop, batch)).toMatchObject({
      ok: false,
      why: expect.stringContaining('is not closed'),
    });
    expect(ledgerTypes()).toEqual([]);
  });

  test.each(['INV-2027-002', '../batches/INV-2027-001', ''])('of %j finds nothing', other => {
    closedBatch(workshop);
    expect(finishClosing(workshop, other)).toMatchObject({
      ok: false,
      why: expect.stringContaining('There is no such batch'),
    });
  });

  test('restores a record that is gone, and refuses one that the ledger does not name', () => {
    closedBatch(workshop);
    expect(finishClosing(workshop, batch).ok).toBe(true);
    const record = readFileSync(inBatch('record.json'));
    rmSync(inBatch('record.json'));
    expect(finishClosing(workshop, batch).ok).toBe(true);
    expect(readFileSync(inBatch('record.json'))).toEqual(record);
    const changed = record.toString().replace('20.1', '20.2');
    writeFileSync(inBatch('record.json'), changed);
    expect(finishClosing(workshop, batch)).toMatchObject({
      ok: false,
      why: expect.stringContaining('is not the record that the ledger names'),
    });
    expect(readFileSync(inBatch('record.json'), 'utf8')).toBe(changed);
  });

  test('writes a record anew that the ledger does not know yet', () => {
    closedBatch(workshop);
    writeFileSync(inBatch('record.json'), 'half');
    expect(finishClosing(workshop, batch).ok).toBe(true);
    expect(readFileSync(inBatch('record.json'), 'utf8')).toMatch(/^\{\n {2}"type"/);
  });

  test('refuses a journal that is not the one in the ledger', () => {
    closedBatch(workshop);
    expect(finishClosing(workshop, batch).ok).toBe(true);
    const other = tempDir();
    const elsewhere = workshopIn(other);
    const { session, release } = begun(elsewhere, 'Ben');
    session.dispatch({ type: 'scrap', reason: 'fell on the floor' });
    release();
    writeFileSync(
      inBatch('journal.jsonl'),
      readFileSync(join(other, 'batches', batch, 'journal.jsonl')),
    );
    expect(finishClosing(workshop, batch)).toMatchObject({
      ok: false,
      why: expect.stringContaining('is not the one that the ledger names'),
    });
  });
});

describe('signing', () => {
  test('finishes the closing, and what comes out verifies', () => {
    closedBatch(workshop);
    enrolled('Ana');
    expect(signBatch(workshop, keysDir, made)).toEqual({ ok: true, value: inBatch('record.json') });
    expect(ledgerTypes()).toEqual(['closed', 'signed']);
    expect(verifyBatch(inBatch('')).claims.filter(each => each.state !== 'holds')).toEqual([]);
    expect(verdict()).toBe('good');
  });

  test('by a second person and for another meaning adds to what is there', () => {
    closedBatch(workshop);
    enrolled('Ana');
    enrolled('Ben');
    for (const wish of [
      made,
      { ...made, name: 'Ben', meaning: 'reviewed by' },
      { ...made, meaning: 'released by' },
    ] as const) {
      expect(signBatch(workshop, keysDir, wish).ok).toBe(true);
    }
    expect(ledgerTypes()).toEqual(['closed', 'signed', 'signed', 'signed']);
    expect(verdict()).toBe('good');
  });

  test('the same meaning twice by the same person is refused', () => {
    closedBatch(workshop);
    enrolled('Ana');
    expect(signBatch(workshop, keysDir, made).ok).toBe(true);
    const before = allFiles();
    expect(signBatch(workshop, keysDir, made)).toEqual({
      ok: false,
      why: 'Ana has signed INV-2027-001 as “made by” already.',
    });
    expect(allFiles()).toEqual(before);
  });

  test('who made it cannot witness it, and who did not cannot sign it as made', () => {
    closedBatch(workshop);
    enrolled('Ana');
    enrolled('Ben');
    expect(signBatch(workshop, keysDir, { ...made, name: 'Ben' })).toEqual({
      ok: false,
      why: 'INV-2027-001 was made by Ana, not by Ben.',
    });
    expect(signBatch(workshop, keysDir, { ...made, meaning: 'witnessed by' })).toEqual({
      ok: false,
      why: 'Ana made INV-2027-001: its witness is another person.',
    });
    expect(ledgerTypes()).toEqual(['closed']);
  });

  test('with a wrong passphrase or without a key is refused, and the closing stands', () => {
    closedBatch(workshop);
    expect(signBatch(workshop, keysDir, made)).toMatchObject({
      ok: false,
      why: expect.stringContaining('no key on this computer'),
    });
    enrolled('Ana');
    expect(signBatch(workshop, keysDir, { ...made, passphrase: 'pepper' })).toMatchObject({
      ok: false,
      why: expect.stringContaining('does not open the key'),
    });
    expect(ledgerTypes()).toEqual(['closed']);
    expect(existsSync(inBatch('record.sig.json'))).toBe(false);
  });

  test('in practice stays in the practice room', () => {
    const practice = workshopIn(folder, { practice: true });
    const number = closedBatch(practice);
    enrolled('Ana', practice);
    expect(signBatch(practice, keysDir, { ...made, batch: number }).ok).toBe(true);
    expect(readdirSync(folder)).toEqual(['practice']);
    expect(verifyBatch(join(practice.batches, number)).verdict).toBe('good');
  });

  test('a planted signature is not taken into the ledger', () => {
    closedBatch(workshop);
    enrolled('Ana');
    expect(signBatch(workshop, keysDir, made).ok).toBe(true);
    const planted = readFileSync(inBatch('record.sig.json'), 'utf8').replace(
      /"signature": "(.)/,
      (_, first) => `"signature": "${first === 'A' ? 'B' : 'A'}`,
    );
    writeFileSync(inBatch('record.sig.json'), planted);
    expect(finishClosing(workshop, batch)).toMatchObject({
      ok: false,
      why: expect.stringContaining('does not hold'),
    });
    expect(ledgerTypes()).toEqual(['closed', 'signed']);
  });

  test('a ledger line that was torn off is written again', () => {
    const told: string[] = [];
    const noisy = workshopIn(folder, { told });
    closedBatch(noisy);
    enrolled('Ana');
    expect(signBatch(noisy, keysDir, made).ok).toBe(true);
    const whole = readFileSync(workshop.ledger);
    truncateSync(workshop.ledger, whole.length - 20);
    expect(finishClosing(noisy, batch).ok).toBe(true);
    expect(told).toEqual([expect.stringContaining('ledger.torn-1.jsonl')]);
    expect(ledgerTypes()).toEqual(['closed', 'signed']);
    expect(verdict()).toBe('good');
  });
});

describe('an interruption', () => {
  test('at any call leaves what never verifies as good unless it is, and can be finished', () => {
    closedBatch(workshop);
    enrolled('Ana');
    const prepared = folder;
    let isCut = true;
    for (let n = 0; isCut; n += 1) {
      folder = tempDir();
      cpSync(prepared, folder, { recursive: true });
      workshop = workshopIn(folder);
      const cut = cutAt(n);
      const done = signBatch({ ...workshop, disk: cut.disk }, keysDir, made).ok;
      isCut = cut.isCut();
      expect(['good', 'unfinished']).toContain(verdict());
      if (done) expect(verdict()).toBe('good');
      rmSync(`${workshop.ledger}.lock`, { force: true });
      expect(finishClosing(workshop, batch).ok).toBe(true);
      if (verdict() === 'unfinished') expect(signBatch(workshop, keysDir, made).ok).toBe(true);
      expect(ledgerTypes()).toEqual(['closed', 'signed']);
      expect(verdict()).toBe('good');
    }
  });

  test('between signature and ledger is mended by signing again, without a second signature', () => {
    closedBatch(workshop);
    enrolled('Ana');
    expect(signBatch(workshop, keysDir, made).ok).toBe(true);
    const lines = readFileSync(workshop.ledger, 'utf8').split('\n');
    writeFileSync(workshop.ledger, `${lines[0]}\n`);
    expect(verdict()).toBe('unfinished');
    const signature = readFileSync(inBatch('record.sig.json'));
    expect(signBatch(workshop, keysDir, made).ok).toBe(true);
    expect(readFileSync(inBatch('record.sig.json'))).toEqual(signature);
    expect(verdict()).toBe('good');
  });
});
