import { existsSync, mkdirSync, readdirSync, rmSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, test } from 'vitest';
import type { Scale } from '../../src/core/plan/plan.ts';
import { createBench, type HeldBench } from '../../src/workshop/bench.ts';
import { readHome } from '../../src/workshop/home.ts';
import type { Workshop } from '../../src/workshop/workshop.ts';
import { begun, closedBatch, doAll, saltOpening, saltSteps, workshopIn } from '../helpers/batch.ts';
import { mass } from '../helpers/sheet.ts';
import { tempDir } from '../helpers/temp-dir.ts';

// Invented data throughout.
const scale: Scale = { name: 'big', capacity: mass('5000'), readability: mass('0.1'), unit: 'g' };
const passphrase = 'a spoon of salt';

const benchOf = (workshop: Workshop, more: { batch?: string } = {}): HeldBench => {
  const bench = createBench({
    workshop,
    keysDir: join(workshop.folder, '..', 'keys'),
    person: 'Ana',
    opening: saltOpening(workshop.practice),
    ...more,
  });
  if (!bench.ok) throw new Error(bench.why);
  return bench.value;
};

const homeOf = (workshop: Workshop) => {
  const home = readHome(workshop);
  if (!home.ok) throw new Error(home.why);
  return home.value;
};

describe('a bench', () => {
  test('makes nothing before something is begun', () => {
    const folder = join(tempDir(), 'shop');
    const { bench, release } = benchOf(workshopIn(folder));
    expect(bench.scales()).toEqual([]);
    expect(bench.hasKey('Ana')).toBe(false);
    expect(bench.session).toBeUndefined();
    release();
    expect(existsSync(folder)).toBe(false);
  });

  test('carries a batch from its scales to its signature', async () => {
    const workshop = workshopIn(join(tempDir(), 'shop'));
    const { bench, release } = benchOf(workshop);
    expect(bench.addScale(scale, 'Ana').ok).toBe(true);
    expect(bench.scales()).toEqual([scale]);
    expect(bench.plan(saltOpening(), bench.scales()).plan.scales).toEqual([scale]);
    const begun = bench.begin(saltOpening(), bench.scales(), 'Ana');
    if (!begun.ok) throw new Error(begun.why);
    doAll(begun.value, saltSteps);
    expect(await bench.enrol('Ana', passphrase)).toEqual({ ok: true, value: true });
    expect(bench.hasKey('Ana')).toBe(true);
    expect(bench.hasKey('Ben')).toBe(false);
    const record = join(workshop.batches, 'INV-2027-001', 'record.json');
    const signed = await bench.sign('INV-2027-001', 'Ana', passphrase, 'made by');
    expect(signed).toEqual({ ok: true, value: record });
    release();
    expect(readdirSync(join(record, '..')).toSorted()).toEqual([
      'journal.jsonl',
      'record.json',
      'record.sig.json',
    ]);
  });

  test('has the record of a scrapped batch at once, or when it goes on with one', () => {
    const workshop = workshopIn(join(tempDir(), 'shop'));
    const { bench, release } = benchOf(workshop);
    const begun = bench.begin(saltOpening(), [scale], 'Ana');
    if (!begun.ok) throw new Error(begun.why);
    const record = join(workshop.batches, 'INV-2027-001', 'record.json');
    expect(existsSync(record)).toBe(false);
    doAll(begun.value, [{ type: 'scrap', reason: 'spilt' }]);
    expect(existsSync(record)).toBe(true);
    release();
    rmSync(record);
    benchOf(workshop, { batch: 'INV-2027-001' }).release();
    expect(existsSync(record)).toBe(true);
  });

  test('goes on with a batch, and holds it until it lets go', () => {
    const workshop = workshopIn(join(tempDir(), 'shop'));
    begun(workshop).release();
    const { bench, release } = benchOf(workshop, { batch: 'INV-2027-001' });
    expect(bench.session?.state()).toMatchObject({ phase: 'open', batch: 'INV-2027-001' });
    expect(createBench({ workshop, keysDir: 'keys', batch: 'INV-2027-001' }).ok).toBe(false);
    release();
    benchOf(workshop, { batch: 'INV-2027-001' }).release();
  });

  test('is refused where the register is damaged', () => {
    const workshop = workshopIn(tempDir());
    writeFileSync(workshop.register, 'damaged\n');
    expect(createBench({ workshop, keysDir: 'keys' })).toMatchObject({
      ok: false,
      why: expect.stringContaining('register.jsonl is damaged in line 1'),
    });
  });
});

describe('the home', () => {
  test('of a new workshop is empty, and stays a thought', () => {
    const folder = join(tempDir(), 'shop');
    expect(homeOf(workshopIn(folder))).toEqual({
      inHand: [],
      unfinished: [],
      closed: [],
      unreadable: [],
    });
    expect(existsSync(folder)).toBe(false);
  });

  test('tells batches in hand, closings unfinished, records and what cannot be read apart', async () => {
    const workshop = workshopIn(join(tempDir(), 'shop'));
    const open = begun(workshop);
    doAll(open.session, [...saltSteps.slice(0, 2), { type: 'pause', reason: 'lunch at noon' }]);
    const signed = closedBatch(workshop);
    const { bench, release } = benchOf(workshop);
    await bench.enrol('Ana', passphrase);
    await bench.sign(signed, 'Ana', passphrase, 'made by');
    const unsigned = closedBatch(workshop);
    await bench.sign(unsigned, 'Ana', 'wrong', 'made by');
    const unfinished = closedBatch(workshop);
    mkdirSync(join(workshop.batches, 'INV-2027-005'));
    mkdirSync(join(workshop.batches, 'INV-2027-006'));
    writeFileSync(join(workshop.batches, 'INV-2027-006', 'journal.jsonl'), 'damaged\n');
    mkdirSync(join(workshop.batches, 'holiday pictures'));
    release();

    const home = homeOf(workshop);
    expect(home.inHand).toMatchObject([
      { batch: 'INV-2027-001', sheet: 'Invented salt', person: 'Ana', isPaused: true },
    ]);
    expect([home.inHand[0]?.step, home.inHand[0]?.steps]).toEqual([2, 2]);
    expect(home.unfinished).toEqual([unfinished]);
    expect(home.closed).toMatchObject([
      { batch: signed, signatures: [{ signer: 'Ana', meaning: 'made by' }] },
      { batch: unsigned, signatures: [] },
    ]);
    expect(home.unreadable).toMatchObject([{ batch: 'INV-2027-006' }]);
    open.release();
  });

  test('keeps practice apart', () => {
    const folder = tempDir();
    begun(workshopIn(folder, { practice: true })).release();
    expect(homeOf(workshopIn(folder)).inHand).toEqual([]);
    expect(homeOf(workshopIn(folder, { practice: true })).inHand).toHaveLength(1);
  });

  test('reads a batch that another process is writing to, and leaves its lock alone', () => {
    const workshop = workshopIn(tempDir());
    const held = begun(workshop);
    expect(homeOf(workshop).inHand).toHaveLength(1);
    expect(held.session.dispatch(saltSteps[0]!).kind).toBe('done');
    held.release();
  });
});
