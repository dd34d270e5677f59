import { cpSync, mkdirSync, rmSync } from 'node:fs';
import { join } from 'node:path';
import { expect, test } from 'vitest';
import { verifyWorkshop } from '../../../src/workshop/verify/verify-workshop.ts';
import { writeWorkshop } from '../../helpers/record.ts';

test('a workshop with one good batch is good', () => {
  const { room } = writeWorkshop();
  expect(verifyWorkshop(room)).toMatchObject({
    verdict: 'good',
    status: 0,
    batches: [{ batch: 'PRF-2027-001', verdict: 'good' }],
  });
});

test('a batch whose folder is gone is missed', () => {
  const { room, folder } = writeWorkshop();
  rmSync(folder, { recursive: true });
  const report = verifyWorkshop(room);
  expect(report).toMatchObject({ status: 1, batches: [] });
  expect(report.claims).toContainEqual(
    expect.objectContaining({ claim: 'closed', code: 'missing' }),
  );
});

test('one bad batch among good ones makes the workshop bad', () => {
  const { room, folder } = writeWorkshop();
  cpSync(folder, join(room, 'batches', 'PRF-2027-002'), { recursive: true });
  expect(verifyWorkshop(room)).toMatchObject({
    status: 1,
    batches: [{ status: 0 }, { status: 1 }],
  });
});

test('a closing that is not finished is said of the workshop too', () => {
  const { room, path } = writeWorkshop();
  rmSync(path('record.sig.json'));
  rmSync(path('ledger.jsonl'));
  expect(verifyWorkshop(room).status).toBe(4);
});

test('a batch that is still open is listed and changes no verdict', () => {
  const open = writeWorkshop({ events: list => list.slice(0, 4) });
  rmSync(open.path('record.json'));
  rmSync(open.path('record.sig.json'));
  const { room } = writeWorkshop();
  cpSync(open.folder, join(room, 'batches', 'PRF-2027-002'), { recursive: true });
  expect(verifyWorkshop(room)).toMatchObject({
    status: 0,
    batches: [{ status: 0 }, { status: 4 }],
  });
});

test('a folder without batches is not ours', () => {
  const { room } = writeWorkshop();
  const elsewhere = join(room, 'elsewhere');
  mkdirSync(elsewhere);
  expect(verifyWorkshop(elsewhere).status).toBe(3);
  expect(verifyWorkshop(join(elsewhere, 'none')).status).toBe(3);
});
