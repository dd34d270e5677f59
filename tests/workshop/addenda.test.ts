import { cpSync, existsSync, readFileSync, rmSync, truncateSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { beforeEach, describe, expect, test } from 'vitest';
import type { Meaning } from '../../src/core/dialogue/bench.ts';
import { type AddendumWish, addAddendum } from '../../src/workshop/add-addendum.ts';
import { enrol } from '../../src/workshop/enrol.ts';
import { exportBatch } from '../../src/workshop/export/export-batch.ts';
import { finishClosing } from '../../src/workshop/finish-closing.ts';
import { readHome } from '../../src/workshop/home.ts';
import { readLedger } from '../../src/workshop/ledger.ts';
import { signBatch } from '../../src/workshop/sign-batch.ts';
import { verifyBatch } from '../../src/workshop/verify/verify-batch.ts';
import type { Workshop } from '../../src/workshop/workshop.ts';
import { begun, closedBatch, doAll, saltSteps, workshopIn } from '../helpers/batch.ts';
import { cutAt } from '../helpers/failing-disk.ts';
import { csvObjects } from '../helpers/read-csv.ts';
import { tempDir } from '../helpers/temp-dir.ts';

// Invented data throughout.
const passphrase = 'a spoon of salt';
const batch = 'INV-2027-001';
const packing: AddendumWish = {
  batch,
  name: 'Ana',
  passphrase,
  kind: 'packing',
  text: 'Two jars <b>in</b> one box.',
};
const assessment: AddendumWish = {
  ...packing,
  kind: 'assessment',
  text: 'A little less clay does no harm.',
  deviation: 1,
};

let folder = '';
let keysDir = '';
let workshop: Workshop;

beforeEach(() => {
  folder = tempDir();
  keysDir = tempDir();
  workshop = workshopIn(folder);
  expect(enrol(workshop, keysDir, 'Ana', passphrase)).toMatchObject({ ok: true });
});

const inBatch = (name: string): string => join(folder, 'batches', batch, name);
const verdict = (): string => verifyBatch(inBatch('')).verdict;
const add = (wish: AddendumWish, where = workshop) => addAddendum(where, keysDir, wish);
const sign = (meaning: Meaning) =>
  signBatch(workshop, keysDir, { batch, name: 'Ana', passphrase, meaning });

const ledgerTypes = (): string[] => {
  const ledger = readLedger(workshop);
  if (!ledger.ok) throw new Error(ledger.why);
  return ledger.value.map(line => line.type);
};

const signedBatch = (): void => {
  closedBatch(workshop);
  expect(sign('made by').ok).toBe(true);
};

/** One with a deviation: too little clay, accepted. */
const deviatingBatch = (): void => {
  const { session, release } = begun(workshop);
  doAll(session, [
    ...saltSteps.slice(0, 2),
    { type: 'read', step: 2, way: 'net', part: 'display', typed: '19.0' },
    { type: 'accept', step: 2, reason: 'the clay ran out' },
    { type: 'close' },
  ]);
  release();
  expect(sign('made by').ok).toBe(true);
};

const exported = (form: 'html' | 'csv'): string => {
  const done = exportBatch(inBatch(''), form);
  if (!done.ok) throw new Error(done.why);
  return Buffer.from(done.value).toString('utf8');
};

describe('an addendum', () => {
  test('is signed, counted in the ledger, and leaves the record as it is', () => {
    signedBatch();
    const record = readFileSync(inBatch('record.json'));
    expect(add(packing)).toEqual({ ok: true, value: true });
    expect(add({ ...packing, kind: 'complaint', text: 'One jar leaks.' }).ok).toBe(true);
    expect(readFileSync(inBatch('record.json'))).toEqual(record);
    expect(JSON.parse(readFileSync(inBatch('addenda/002.json'), 'utf8'))).toMatchObject({
      batch,
      n: 2,
      kind: 'complaint',
      text: 'One jar leaks.',
      by: 'Ana',
    });
    expect(ledgerTypes()).toEqual(['closed', 'signed', 'addendum', 'addendum']);
    expect(verdict()).toBe('good');
  });

  test('stands on the page and in the table', () => {
    signedBatch();
    expect(exported('html')).not.toContain('Added after closing');
    expect(add(packing).ok).toBe(true);
    expect(exported('html')).toContain('Added after closing: 1');
    expect(exported('html')).toContain('Two jars &lt;b&gt;in&lt;/b&gt; one box.');
    expect(csvObjects(exported('csv')).at(-2)).toMatchObject({
      kind: 'addendum',
      by: 'Ana',
      what: 'packing',
      text: packing.text,
    });
  });

  test('of a batch that is still open is refused', () => {
    begun(workshop).release();
    expect(add(packing)).toMatchObject({ ok: false, why: expect.stringContaining('not closed') });
  });

  test.each<readonly [string, Partial<AddendumWish>, string]>([
    ['without text', { text: ' ' }, 'The text is empty'],
    ['with text for the terminal', { text: 'a\u001b[2J' }, 'The text is empty'],
    ['of a deviation that does not assess', { deviation: 1 }, 'Only an assessment'],
    ['that assesses none', { kind: 'assessment' }, 'It has none.'],
    ['by nobody that is known', { name: 'Ben' }, 'no key on this computer'],
    ['under a wrong passphrase', { passphrase: 'pepper' }, 'does not open the key'],
  ])('%s is refused, and nothing is written', (_name, wish, why) => {
    signedBatch();
    expect(add({ ...packing, ...wish })).toMatchObject({
      ok: false,
      why: expect.stringContaining(why),
    });
    expect(existsSync(inBatch('addenda'))).toBe(false);
    expect(verdict()).toBe('good');
  });

  test('that was planted is not taken into the ledger', () => {
    signedBatch();
    expect(add(packing).ok).toBe(true);
    const whole = readFileSync(workshop.ledger, 'utf8').trimEnd().split('\n');
    writeFileSync(workshop.ledger, `${whole.slice(0, -1).join('\n')}\n`);
    const planted = readFileSync(inBatch('addenda/001.json'), 'utf8').replace('Two', 'Ten');
    writeFileSync(inBatch('addenda/001.json'), planted);
    expect(finishClosing(workshop, batch)).toMatchObject({
      ok: false,
      why: expect.stringContaining('does not hold'),
    });
    expect(ledgerTypes()).toEqual(['closed', 'signed']);
  });

  test('whose ledger line was torn off is entered again, once', () => {
    signedBatch();
    expect(add(packing).ok).toBe(true);
    truncateSync(workshop.ledger, readFileSync(workshop.ledger).length - 20);
    expect(verdict()).toBe('unfinished');
    expect(add(packing).ok).toBe(true);
    expect(ledgerTypes()).toEqual(['closed', 'signed', 'addendum']);
    expect(verdict()).toBe('good');
  });

  test('that was never signed makes way for another one, and its text is told', () => {
    const told: string[] = [];
    signedBatch();
    expect(add(packing).ok).toBe(true);
    truncateSync(workshop.ledger, readFileSync(workshop.ledger).length - 20);
    rmSync(inBatch('addenda/001.sig.json'));
    expect(verdict()).toBe('unfinished');
    expect(exported('html')).not.toContain('Added after closing');
    const other = { ...packing, text: 'Three jars.' };
    expect(add(other, workshopIn(folder, { told })).ok).toBe(true);
    expect(told.join()).toContain(packing.text);
    expect(verdict()).toBe('good');
  });

  test('interrupted at any call is never good before it is whole, and is finished by doing it again', () => {
    signedBatch();
    const prepared = folder;
    let isCut = true;
    for (let n = 0; isCut; n += 1) {
      folder = tempDir();
      cpSync(prepared, folder, { recursive: true });
      workshop = workshopIn(folder);
      const cut = cutAt(n);
      add(packing, { ...workshop, disk: cut.disk });
      isCut = cut.isCut();
      const isNew = existsSync(inBatch('addenda/001.json'));
      if (isNew && ledgerTypes().length < 3) expect(verdict()).toBe('unfinished');
      else expect(verdict()).toBe('good');
      rmSync(`${workshop.ledger}.lock`, { force: true });
      if (ledgerTypes().length < 3) expect(add(packing).ok).toBe(true);
      expect(ledgerTypes()).toEqual(['closed', 'signed', 'addendum']);
      expect(verdict()).toBe('good');
    }
  });
});

const decision = () => {
  const home = readHome(workshop);
  return home.ok ? home.value.closed.map(each => each.decision) : home.why;
};

describe('the state of a batch', () => {
  test('is released only after each deviation is assessed', () => {
    deviatingBatch();
    expect(sign('released by')).toMatchObject({
      ok: false,
      why: expect.stringContaining('Still open: deviation 1 (step 2, under).'),
    });
    expect(add({ ...assessment, deviation: 2 })).toMatchObject({
      ok: false,
      why: expect.stringContaining('It has deviation 1 (step 2, under).'),
    });
    expect(decision()).toEqual([undefined]);
    expect(exported('html')).toContain('not released');
    expect(add(assessment).ok).toBe(true);
    expect(sign('released by').ok).toBe(true);
    expect(decision()).toEqual(['released']);
    expect(exported('html')).toContain('assessment of deviation 1');
    expect(exported('html')).toContain('released by Ana, ');
    expect(verdict()).toBe('good');
  });

  test('changes with the latest signature, each given anew', () => {
    signedBatch();
    expect(sign('released by').ok).toBe(true);
    expect(sign('released by').ok).toBe(false);
    expect(sign('rejected by').ok).toBe(true);
    expect(decision()).toEqual(['rejected']);
    expect(sign('rejected by').ok).toBe(false);
    expect(sign('released by').ok).toBe(true);
    expect(decision()).toEqual(['released']);
    expect(verdict()).toBe('good');
  });

  test('cannot become released once the batch was closed as rejected', () => {
    const { session, release } = begun(workshop);
    session.dispatch({ type: 'scrap', reason: 'fell on the floor' });
    release();
    expect(sign('made by').ok).toBe(true);
    expect(sign('released by')).toMatchObject({
      ok: false,
      why: expect.stringContaining('closed as rejected'),
    });
    expect(verifyBatch(inBatch('')).claims.find(({ claim }) => claim === 'state')?.text).toContain(
      'The batch is rejected',
    );
  });
});
