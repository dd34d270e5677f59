import {
  appendFileSync,
  mkdirSync,
  readdirSync,
  readFileSync,
  rmSync,
  writeFileSync,
} from 'node:fs';
import { hostname } from 'node:os';
import { join } from 'node:path';
import { beforeAll, describe, expect, test } from 'vitest';
import { firstHash, formatLine } from '../../src/workshop/chained-line.ts';
import { realDisk } from '../../src/workshop/disk.ts';
import { ourselves } from '../../src/workshop/lock-holder.ts';
import { beginBatch, openBatch } from '../../src/workshop/open-batch.ts';
import { readJournal } from '../../src/workshop/replay-journal.ts';
import type { Workshop } from '../../src/workshop/workshop.ts';
import { begun, doAll, saltOpening, saltSteps, workshopIn } from '../helpers/batch.ts';
import { cases } from '../helpers/cases.ts';
import { buildChild, startChild } from '../helpers/child.ts';
import { failingDisk, systemError } from '../helpers/failing-disk.ts';
import { tempDir } from '../helpers/temp-dir.ts';

const first = 'INV-2027-001';

const opened = (workshop: Workshop, batch = first, takeOver?: string) => {
  const held = openBatch(workshop, batch, takeOver);
  if (!held.ok) throw new Error(held.why);
  return held.value;
};

const journalOf = ({ batches }: Workshop, batch = first): string =>
  join(batches, batch, 'journal.jsonl');

const typesIn = (workshop: Workshop, batch = first): unknown[] => {
  const journal = readJournal(workshop, batch);
  if (!journal.ok) throw new Error(journal.why);
  return journal.value.lines.map(line => line.body['type']);
};

const timeless = (workshop: Workshop): string =>
  readFileSync(journalOf(workshop), 'utf8').replace(/"(at|hash)":"[^"]*"/g, '');

const relined = (workshop: Workshop, lines: readonly Record<string, unknown>[]): void => {
  let previous = firstHash;
  const text = lines.map(line => {
    const made = formatLine(line, previous);
    previous = made.hash;
    return made.text;
  });
  writeFileSync(journalOf(workshop), text.join(''));
};

const withLines = (change: (lines: Record<string, unknown>[]) => Record<string, unknown>[]) => {
  const workshop = workshopIn(tempDir());
  const { session, release } = begun(workshop);
  doAll(session, saltSteps.slice(0, 2));
  release();
  const journal = readJournal(workshop, first);
  if (!journal.ok) throw new Error(journal.why);
  relined(workshop, change(journal.value.lines.map(line => ({ ...line.body }))));
  return openBatch(workshop, first);
};

describe('beginning', () => {
  test('gives the numbers in turn, by the local year', () => {
    const workshop = workshopIn(tempDir());
    for (const number of ['INV-2027-001', 'INV-2027-002', 'INV-2027-003']) {
      const { session, release } = begun(workshop);
      expect(session.state()).toMatchObject({ phase: 'open', batch: number, begunBy: 'Ana' });
      release();
    }
    const newYear = {
      ...workshop,
      now: () => ({ epochMs: Date.UTC(2027, 11, 31, 23, 30), offset: 60 }),
    };
    expect(begun(newYear).session.state()).toMatchObject({ batch: 'INV-2028-001' });
  });

  test('never gives a number again: not that of an empty folder, not one that only the ledger knows', () => {
    const workshop = workshopIn(tempDir());
    mkdirSync(join(workshop.batches, 'INV-2027-998'), { recursive: true });
    expect(begun(workshop).session.state()).toMatchObject({ batch: 'INV-2027-999' });
    const closed = { batch: 'INV-2027-1203', record: 'ab'.repeat(32), journal: 'cd'.repeat(32) };
    const head = { seq: 1, at: '2027-03-04T09:00:00.000+01:00', by: 'Ana', type: 'closed' };
    writeFileSync(workshop.ledger, formatLine({ ...head, ...closed }, firstHash).text);
    expect(begun(workshop).session.state()).toMatchObject({ batch: 'INV-2027-1204' });
  });

  test('in practice has its own numbers in its own folder', () => {
    const folder = tempDir();
    const { session } = begun(workshopIn(folder, { practice: true }));
    expect(session.state()).toMatchObject({ batch: 'P-INV-2027-001', practice: true });
    expect(readdirSync(join(folder, 'practice', 'batches'))).toEqual(['P-INV-2027-001']);
    expect(begun(workshopIn(folder)).session.state()).toMatchObject({ batch: first });
  });

  test('what is refused takes no number and makes no folder', () => {
    const workshop = workshopIn(tempDir());
    const bad = { ...saltOpening(), sheetText: 'no sheet' };
    expect(beginBatch(workshop, bad, [], { by: 'Ana' })).toMatchObject({ ok: false });
    expect(readdirSync(workshop.folder)).toEqual([]);
  });

  test('that fails half way gives the number to nobody else', () => {
    const folder = tempDir();
    let isFull = true;
    const disk = failingDisk({
      open: (path, flags, mode) => {
        if (isFull && path.endsWith('journal.jsonl')) throw systemError('ENOSPC');
        return realDisk.open(path, flags, mode);
      },
    });
    const workshop = workshopIn(folder, { disk });
    expect(beginBatch(workshop, saltOpening(), [], { by: 'Ana' })).toMatchObject({
      ok: false,
      why: expect.stringContaining('the disk is full'),
    });
    isFull = false;
    expect(begun(workshop).session.state()).toMatchObject({ batch: 'INV-2027-002' });
    expect(openBatch(workshop, first)).toMatchObject({
      ok: false,
      why: expect.stringContaining('was never begun'),
    });
  });
});

describe('opening', () => {
  test('after every single step goes on at that step, to the same journal', () => {
    const one = workshopIn(tempDir());
    const walked = begun(one);
    doAll(walked.session, saltSteps);
    walked.release();

    const other = workshopIn(tempDir());
    begun(other).release();
    for (const intent of saltSteps) {
      const { session, release } = opened(other);
      doAll(session, [intent]);
      release();
    }
    expect(timeless(other)).toBe(timeless(one));
  });

  test('is refused while it is held, and open again when it is let go', () => {
    const workshop = workshopIn(tempDir());
    const { release } = begun(workshop);
    expect(openBatch(workshop, first)).toMatchObject({
      ok: false,
      why: expect.stringContaining(`process ${process.pid}`),
    });
    release();
    opened(workshop).release();
  });

  test.each(['INV-2027-002', '..', '../batches/INV-2027-001', '', 'INV-2027-001/', 'x'.repeat(99)])(
    'of %j finds nothing',
    batch => {
      const workshop = workshopIn(tempDir());
      begun(workshop).release();
      expect(openBatch(workshop, batch)).toMatchObject({
        ok: false,
        why: expect.stringContaining('There is no such batch'),
      });
    },
  );

  test('in a folder that is no workshop finds nothing', () => {
    expect(openBatch(workshopIn(join(tempDir(), 'none')), first)).toMatchObject({
      ok: false,
      why: expect.stringContaining('There is no such batch'),
    });
  });

  test('mends a torn tail and says so', () => {
    const told: string[] = [];
    const workshop = workshopIn(tempDir(), { told });
    begun(workshop).release();
    appendFileSync(journalOf(workshop), '{"seq":2,"at":"20');
    opened(workshop).release();
    expect(told).toEqual([expect.stringContaining('journal.torn-1.jsonl')]);
    expect(typesIn(workshop)).toEqual(['begun']);
  });

  test('refuses a well-chained line that does not fit, by its number', () => {
    expect(withLines(lines => lines).ok).toBe(true);
    const refused = [
      withLines(([one, two, three]) => [one!, two!, { ...three!, step: 77 }]),
      withLines(([one, two, three]) => [one!, two!, { ...three!, type: 'erased' }]),
      withLines(([one, two, three]) => [one!, two!, { ...three!, seq: 4 }]),
      withLines(([one, two, three]) => [one!, two!, { ...three!, more: 1 }]),
    ];
    for (const each of refused) {
      expect(each).toMatchObject({ ok: false, why: expect.stringContaining('in line 3: ') });
    }
  });

  test('refuses the journal of another batch', () => {
    expect(
      withLines(([one, ...rest]) => [{ ...one!, batch: 'INV-2027-002' }, ...rest]),
    ).toMatchObject({
      ok: false,
      why: expect.stringContaining('it belongs to batch INV-2027-002'),
    });
  });
});

test('a lock of another computer is taken over with a reason, which is noted', () => {
  const workshop = workshopIn(tempDir());
  begun(workshop).release();
  const other = { ...ourselves('tarebook 0', 'yesterday'), host: `${hostname()}-other` };
  writeFileSync(join(workshop.batches, first, 'lock'), `${JSON.stringify(other)}\n`);
  expect(openBatch(workshop, first).ok).toBe(false);
  opened(workshop, first, 'its laptop fell into the tub').release();
  expect(typesIn(workshop)).toEqual(['begun', 'noted']);
  expect(readFileSync(journalOf(workshop), 'utf8')).toContain(
    `Taken over from the computer ${hostname()}-other: its laptop fell into the tub`,
  );
});

describe('a writer that is killed', () => {
  let child = '';
  beforeAll(() => {
    child = buildChild('tests/workshop/children/write-notes.ts');
  });

  test('loses nothing that it was told is on the disk, and its batch is open to others at once', async () => {
    for (let n = 0; n < cases(3); n += 1) {
      const folder = tempDir();
      const writer = startChild(child, folder);
      let said = Number(await writer.nextLine());
      const timer = setTimeout(() => writer.process.kill('SIGKILL'), 30 + 7 * n);
      for (let line = await writer.nextLine(); line !== undefined; line = await writer.nextLine()) {
        said = Number(line);
      }
      clearTimeout(timer);
      await writer.ended;
      const { session, release } = opened(workshopIn(folder));
      const run = session.state();
      if (run.phase !== 'open') throw new Error('not open');
      expect(run.events.length).toBeGreaterThanOrEqual(said);
      release();
      rmSync(folder, { recursive: true });
    }
  });
});
