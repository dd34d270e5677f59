import { readFileSync, rmSync, writeFileSync } from 'node:fs';
import { expect, test } from 'vitest';
import { exportBatch } from '../../../src/workshop/export/export-batch.ts';
import { type Wishes, writeWorkshop } from '../../helpers/record.ts';

const pageOf = (wishes?: Wishes): string => {
  const done = exportBatch(writeWorkshop(wishes).folder, 'html');
  if (!done.ok) throw new Error(done.why);
  return Buffer.from(done.value).toString('utf8');
};

test('as JSON it is the record itself, byte for byte', () => {
  const { folder, path } = writeWorkshop();
  const done = exportBatch(folder, 'json');
  expect(done.ok && Buffer.from(done.value).equals(readFileSync(path('record.json')))).toBe(true);
});

test('the page holds what an inspector asks for', () => {
  const page = pageOf({ meanings: ['made by', 'reviewed by'] });
  const wanted = [
    'Proof domes',
    'PRF-2027-001',
    'revision 2',
    '2027-01-31 09:00',
    '2027-02-28',
    'Deviations: 1',
    'the moulds are needed',
    'BIC-7',
    'CF-A',
    '10 g lifted out again',
    '1713.2 g',
    'OVER',
    '87.81 %',
    '59.7314 %',
    '1.9868',
    'eye irritant',
    'made by',
    'reviewed by',
    'no claim of compliance',
    'Rest, covered.',
  ];
  expect(wanted.filter(text => !page.includes(text))).toEqual([]);
  expect(page.indexOf('Deviations')).toBeLessThan(page.indexOf('Additions'));
  expect(page.match(/<svg/g)).toHaveLength(7);
});

test('the head of the ledger stands on it: its number and 80 bits in base32', () => {
  expect(pageOf()).toMatch(/>2:[A-Z2-7]{16}</);
});

test('it runs nothing and fetches nothing', () => {
  const page = pageOf();
  expect(page).not.toMatch(
    /<script|<img|<link|<iframe|javascript:|\son\w+=|https?:|url\(|@import|style="/i,
  );
  expect(page).toContain(`default-src &#39;none&#39;`);
});

test('whatever a sheet or a person wrote is escaped', () => {
  const page = pageOf({
    events: list =>
      list.map(each =>
        each['type'] === 'hold-ended'
          ? { ...each, reason: '</td><script>alert("1")</script>\u202e' }
          : each,
      ),
    record: record => {
      const result = record['result'] as { deviations: Record<string, unknown>[] };
      return {
        ...record,
        result: {
          ...result,
          deviations: result.deviations.map(each => ({
            ...each,
            reason: '</td><script>alert("1")</script>\u202e',
          })),
        },
      };
    },
  });
  expect(page).toContain('&lt;/td&gt;&lt;script&gt;alert(&quot;1&quot;)&lt;/script&gt;\ufffd');
  expect(page).toContain('Keep &lt;away&gt; from children');
  expect(page).not.toContain('<script');
});

test('a practice batch says so at the head that every page repeats', () => {
  expect(pageOf({ practice: true })).toMatch(/<thead><tr><td><b class="practice">PRACTICE/);
  expect(pageOf()).not.toContain('PRACTICE');
});

test('a record that is not signed yet says so', () => {
  const { folder, path } = writeWorkshop();
  rmSync(path('record.sig.json'));
  writeFileSync(
    path('ledger.jsonl'),
    `${readFileSync(path('ledger.jsonl'), 'utf8').split('\n')[0]}\n`,
  );
  const done = exportBatch(folder, 'html');
  expect(done.ok && Buffer.from(done.value).toString('utf8')).toContain('Not signed.');
});

test('no page is made of a record that does not hold, or of none', () => {
  const { folder, path } = writeWorkshop();
  writeFileSync(
    path('record.json'),
    readFileSync(path('record.json'), 'utf8').replace('"600"', '"601"'),
  );
  expect(exportBatch(folder, 'html')).toMatchObject({ ok: false });
  rmSync(path('record.json'));
  expect(exportBatch(folder, 'json')).toMatchObject({
    ok: false,
    why: expect.stringContaining('not closed'),
  });
});
