import { spawnSync } from 'node:child_process';
import { readFileSync, rmSync, writeFileSync } from 'node:fs';
import * as fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { recordCsv } from '../../../src/workshop/export/csv.ts';
import { formatCell, formatLine } from '../../../src/workshop/export/csv-cell.ts';
import { exportBatch } from '../../../src/workshop/export/export-batch.ts';
import { nothingMore } from '../../helpers/addenda.ts';
import { cases, seed } from '../../helpers/cases.ts';
import { stretchedRecord } from '../../helpers/over-pour-record.ts';
import { csvObjects, readCsv } from '../../helpers/read-csv.ts';
import { type Wishes, writeWorkshop } from '../../helpers/record.ts';

const csvOf = (wishes?: Wishes): string => {
  const done = exportBatch(writeWorkshop(wishes).folder, 'csv');
  if (!done.ok) throw new Error(done.why);
  return Buffer.from(done.value).toString('utf8');
};

type Rows = ReturnType<typeof csvObjects>;
const ofKind = (rows: Rows, kind: string): Rows => rows.filter(row => row['kind'] === kind);

/** A reason that a person may type, where the record has one. */
const withReason = (reason: string): Wishes => ({
  events: list => list.map(each => (each['type'] === 'hold-ended' ? { ...each, reason } : each)),
  record: record => {
    const result = record['result'] as { deviations: Record<string, unknown>[] };
    const deviations = result.deviations.map(each => ({ ...each, reason }));
    return { ...record, result: { ...result, deviations } };
  },
});

// The numbers are those of the record, which its helper works out by hand.
describe('the table of a record', () => {
  const rows = csvObjects(csvOf({ meanings: ['made by', 'reviewed by'] }));

  test('has a row for each addition, with its target, window and total', () => {
    expect(ofKind(rows, 'addition')).toMatchObject([
      { step: '2', what: 'Sodium bicarbonate', target_g: '600', total_g: '600', verdict: 'in' },
      { step: '3', what: 'Citric acid, fine', low_g: '297', high_g: '303', total_g: '302' },
      { step: '4', what: 'Cornflour & starch', scale: 'fine', total_g: '100.5' },
    ]);
  });

  test('has a row for each lot that went in', () => {
    expect(
      ofKind(rows, 'lot used').map(row => [row['lot'], row['total_g'], row['waste_g']]),
    ).toEqual([
      ['BIC-7', '600', '0'],
      ['CIT-1', '302', '10'],
      ['CF-A', '60', '0'],
      ['CF-B', '40.5', '0'],
    ]);
  });

  test('has a row for each reading, as typed and in grams', () => {
    const readings = ofKind(rows, 'reading');
    expect(readings).toHaveLength(7);
    expect(readings[0]).toMatchObject({
      batch: 'PRF-2027-001',
      practice: 'no',
      seq: '5',
      at: '2027-01-31T09:04:00.000+01:00',
      by: 'Ada',
      phase: 'Base',
      what: 'Sodium bicarbonate',
      lot: 'BIC-7',
      vessel: 'bowl',
      scale: 'big',
      way: 'net',
      part: 'display',
      typed: '350,0',
      unit: 'g',
      reading_g: '350',
      net_g: '350',
      total_g: '350',
      target_g: '600',
      verdict: 'under',
    });
    expect(readings[2]).toMatchObject({ way: 'gross', reading_g: '1713.2', net_g: '312' });
    expect(readings[6]).toMatchObject({ part: 'residue', net_g: '40.5', total_g: '100.5' });
    expect(ofKind(rows, 'taken back')).toMatchObject([{ waste_g: '10', total_g: '302' }]);
  });

  test('has rows of their kinds for what is adjusted, waited for and counted', () => {
    expect(ofKind(rows, 'adjust')).toMatchObject([{ typed: '2 mL', net_g: '1.996' }]);
    expect(ofKind(rows, 'hold ended')).toMatchObject([
      { value: '60', unit: 's', least: '600', most: '1800', verdict: 'early' },
    ]);
    expect(
      ofKind(rows, 'tally').map(row => `${row['what']} ${row['value']} ${row['unit']}`),
    ).toEqual([
      'good 9 pieces',
      'rejected 1 pieces',
      'rejected 0 pieces',
      'samples 0 pieces',
      'left over 12.5 g',
      'crumbs 0 g',
      'weight 97.9 g',
      'weight 98.4 g',
    ]);
    expect(ofKind(rows, 'deviation')).toMatchObject([
      { step: '7', verdict: 'hold early', text: 'the moulds are needed' },
    ]);
  });

  test('has every event, and the signatures at the end', () => {
    expect(rows.filter(row => row['seq'] !== '')).toHaveLength(30);
    expect(rows.slice(-2)).toMatchObject([
      { kind: 'signature', by: 'Ada', what: 'made by', at: '2027-01-31T09:31:00.000+01:00' },
      { kind: 'signature', by: 'Ada', what: 'reviewed by' },
    ]);
  });

  test('says in every row whether it is practice', () => {
    const practice = csvObjects(csvOf({ practice: true }));
    expect(new Set(practice.map(row => row['practice']))).toEqual(new Set(['yes']));
    expect(new Set(rows.map(row => row['practice']))).toEqual(new Set(['no']));
  });
});

test('a measure has its limits and its unit', () => {
  // Invented: a measure put in the place of the wetting.
  const record = stretchedRecord();
  const sheet = {
    ...record.sheet,
    text: record.sheet.text
      .replace(
        /- adjust: water[\s\S]*?together\n/,
        '- measure: humidity\n        unit: "%"\n        most: 50\n',
      )
      .replace(/ {2}water: .*\n/, ''),
  };
  const measured = { type: 'measured', step: 5, typed: '55', value: '55', verdict: 'over' };
  const events = record.events.map(each =>
    each['type'] === 'adjusted'
      ? { seq: each['seq'], at: each['at'], by: each['by'], ...measured, hash: each['hash'] }
      : each,
  );
  const rows = csvObjects(recordCsv({ ...record, sheet, events }, nothingMore));
  expect(ofKind(rows, 'measure')).toMatchObject([
    {
      what: 'humidity',
      typed: '55',
      value: '55',
      unit: '%',
      least: '',
      most: '50',
      verdict: 'over',
    },
  ]);
});

test('a reading stands with the target that was true when it was taken', () => {
  // 312 of 300 g: 600 · 104/101 = 617.82…, on the scale 617.8.
  const rows = csvObjects(recordCsv(stretchedRecord(), nothingMore));
  const ofFirst = ofKind(rows, 'reading').filter(row => row['step'] === '2');
  expect(ofFirst.map(row => [row['reading_g'], row['total_g'], row['target_g']])).toEqual([
    ['600', '600', '600'],
    ['30', '630', '617.8'],
  ]);
});

test('a record that is not signed yet has no signature', () => {
  const { folder, path } = writeWorkshop();
  rmSync(path('record.sig.json'));
  writeFileSync(
    path('ledger.jsonl'),
    `${readFileSync(path('ledger.jsonl'), 'utf8').split('\n')[0]}\n`,
  );
  const done = exportBatch(folder, 'csv');
  const rows = csvObjects(done.ok ? Buffer.from(done.value).toString('utf8') : '');
  expect(rows.at(-1)).toMatchObject({ kind: 'deviation' });
});

test('no table is made of a record that does not hold, or of none', () => {
  const { folder, path } = writeWorkshop();
  const record = readFileSync(path('record.json'), 'utf8');
  writeFileSync(path('record.json'), record.replace('"600"', '"601"'));
  expect(exportBatch(folder, 'csv')).toMatchObject({
    ok: false,
    why: expect.stringContaining('does not hold, so no table'),
  });
  rmSync(path('record.json'));
  expect(exportBatch(folder, 'csv')).toMatchObject({ ok: false });
});

describe('a cell', () => {
  test.each([
    '=1+1',
    '+1+1',
    '-1+1',
    '@SUM(1)',
    '\t=1',
    '\r=1',
    '\n-x',
    ' =1',
    '＝1',
    '-',
    '=',
    '+12',
  ])('of %j is no formula', text => {
    expect(readCsv(formatLine([text]))).toEqual([[expect.stringMatching(/^'/)]]);
  });

  test.each(['0', '12.5', '-0.5', '1004.496'])('of %j stays a number', text => {
    expect(formatCell(text)).toBe(text);
  });

  test('after a semicolon is no formula where semicolons separate', () => {
    expect(formatCell('soft;=1+1')).toBe('"soft;\'=1+1"');
  });

  test('keeps quotes, commas and line ends', () => {
    const text = 'a "b", c\r\nd';
    expect(readCsv(formatLine([text, text]))).toEqual([[text, text]]);
  });

  test('holds no control character and no half of a pair', () => {
    expect(formatCell('a\u001b[2J\u0000\ud800\u202eb')).toBe('"a\ufffd[2J\ufffd\ufffd\ufffdb"');
  });

  test('of any text can be read back and begins no formula', () => {
    const text = fc.string({
      unit: fc.constantFrom(
        '=',
        '+',
        '-',
        '@',
        '\t',
        '\r',
        '\n',
        ' ',
        '"',
        ',',
        ';',
        '1',
        '.',
        'a',
      ),
      maxLength: 12,
    });
    fc.assert(
      fc.property(text, cell => {
        const [[read = ''] = []] = readCsv(formatLine([cell, 'x']));
        const isNumber = /^-?\d+(?:\.\d+)?$/.test(read);
        const starts = read.split(/[;\t\r\n]/).slice(isNumber ? 1 : 0);
        expect(starts.filter(each => /^\s*[=+\-@]/.test(each))).toEqual([]);
        expect(read.replaceAll("'", '')).toBe(cell);
      }),
      { numRuns: cases(500), seed },
    );
  });
});

test('a reason that is a formula comes out harmless', () => {
  const rows = csvObjects(csvOf(withReason('=HYPERLINK("https://x.invalid","1")')));
  expect(ofKind(rows, 'hold ended')[0]?.['text']).toBe(`'=HYPERLINK("https://x.invalid","1")`);
  expect(ofKind(rows, 'deviation')[0]?.['text']).toMatch(/^'=/);
});

const python = spawnSync('python3', ['--version']).error === undefined;

test.skipIf(!python)('python3’s csv module reads the same cells (skipped without python3)', () => {
  const text = csvOf(withReason('"quoted", then\u00a0=1; and -2'));
  const script =
    'import csv,io,json,sys; print(json.dumps(list(csv.reader(io.StringIO(sys.stdin.buffer.read().decode("utf-8"), newline=""), strict=True))))';
  const { stdout, stderr } = spawnSync('python3', ['-c', script], {
    input: text,
    encoding: 'utf8',
  });
  expect(stderr).toBe('');
  expect(JSON.parse(stdout)).toEqual(readCsv(text));
});
