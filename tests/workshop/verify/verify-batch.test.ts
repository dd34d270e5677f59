import {
  cpSync,
  mkdirSync,
  readFileSync,
  renameSync,
  rmSync,
  symlinkSync,
  writeFileSync,
} from 'node:fs';
import { join } from 'node:path';
import { describe, expect, test } from 'vitest';
import type { ClaimName } from '../../../src/workshop/verify/claim.ts';
import { verifyBatch } from '../../../src/workshop/verify/verify-batch.ts';
import { cases, seed } from '../../helpers/cases.ts';
import {
  chain,
  type Json,
  makePerson,
  recordBytes,
  signAs,
  type Wishes,
  type Written,
  writeWorkshop,
} from '../../helpers/record.ts';

const notHolding = (folder: string): string[] =>
  verifyBatch(folder)
    .claims.filter(each => each.state !== 'holds')
    .map(each => `${each.claim}: ${each.code}`);

const statusOf = (folder: string): number => verifyBatch(folder).status;

const edit = ({ path }: Written, name: string, change: (text: string) => string): void =>
  writeFileSync(path(name), change(readFileSync(path(name), 'utf8')));

const linesOf = (text: string): string[] => text.split('\n').slice(0, -1);
const joined = (lines: readonly string[]): string => lines.map(line => `${line}\n`).join('');

/** Writes a chained file anew with other lines, every hash right. */
const rechain = (written: Written, name: string, change: (lines: Json[]) => Json[]): void =>
  edit(written, name, text => {
    const bodies = linesOf(text).map(line => {
      const { hash: _hash, ...body } = JSON.parse(line) as Json;
      return body;
    });
    return chain(change(bodies)).text;
  });

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
    'ledger',
    'register',
  ];
  expect([...claims]).toEqual(names);
});

describe('a record that is signed and chained rightly, but says something false', () => {
  const within = (record: Json, key: string, change: (inner: Json) => Json): Json => ({
    ...record,
    [key]: change(record[key] as Json),
  });
  const event = (list: Json[], type: string, change: (event: Json) => Json, skip = 0): Json[] => {
    let seen = 0;
    return list.map(each => (each['type'] === type && seen++ === skip ? change(each) : each));
  };
  const judged = (each: Json, verdict: string): Json => ({
    ...each,
    judged: { ...(each['judged'] as Json), verdict },
  });
  const lies: readonly (readonly [string, Wishes, readonly string[]])[] = [
    [
      'of another batch',
      { record: record => ({ ...record, batch: 'PRF-2027-009' }) },
      ['number: other-batch', 'sheet: differs'],
    ],
    [
      'of practice',
      { record: record => ({ ...record, practice: true }) },
      ['number: practice', 'sheet: differs'],
    ],
    [
      'of another type',
      { record: record => ({ ...record, type: 'application/json' }) },
      ['record: unknown-type'],
    ],
    [
      'of a later version',
      {
        record: record => ({
          ...record,
          type: 'application/vnd.tarebook.batch-record+json;version=9',
        }),
      },
      ['record: unknown-type'],
    ],
    [
      'with a part too many',
      { record: record => ({ ...record, more: 1 }) },
      ['record: wrong-shape'],
    ],
    [
      'with its parts in another order',
      { record: ({ type, ...rest }) => ({ ...rest, type }) },
      ['record: wrong-shape'],
    ],
    [
      'another revision of the sheet',
      { record: record => within(record, 'sheet', sheet => ({ ...sheet, revision: 3 })) },
      ['sheet: differs'],
    ],
    [
      'a sheet that is none',
      { record: record => within(record, 'sheet', sheet => ({ ...sheet, text: 'sheet: {' })) },
      [
        'sheet: not-workable',
        'plan: not-workable',
        'verdicts: not-workable',
        'result: not-workable',
      ],
    ],
    [
      'another sheet than it was begun with',
      {
        record: record =>
          within(record, 'sheet', sheet => ({
            ...sheet,
            text: `${String(sheet['text'])}# later\n`,
          })),
      },
      ['sheet: differs'],
    ],
    [
      'more pieces in the plan',
      { record: record => within(record, 'plan', plan => ({ ...plan, pieces: 11 })) },
      ['plan: differs'],
    ],
    [
      'a total a little higher',
      {
        record: record => within(record, 'result', result => ({ ...result, massIn: '1004.4961' })),
      },
      ['result: differs'],
    ],
    [
      'a zero more than stated',
      {
        record: record => within(record, 'result', result => ({ ...result, massIn: '1004.4960' })),
      },
      ['result: differs'],
    ],
    [
      'no deviation',
      { record: record => within(record, 'result', result => ({ ...result, deviations: [] })) },
      ['result: differs'],
    ],
    [
      'another last event',
      { record: record => within(record, 'journal', journal => ({ ...journal, lines: 28 })) },
      ['events: wrong-head'],
    ],
    [
      'an over-pour called in',
      { events: list => event(list, 'reading-taken', each => judged(each, 'in'), 2) },
      ['verdicts: differs'],
    ],
    [
      'an early hold called kept',
      {
        events: list =>
          event(list, 'hold-ended', ({ reason: _reason, ...each }) => ({
            ...each,
            verdict: 'kept',
          })),
      },
      ['verdicts: differs', 'result: differs'],
    ],
    [
      'less lifted out than was',
      { events: list => event(list, 'taken-back', each => ({ ...each, lifted: '9' })) },
      ['verdicts: differs'],
    ],
    [
      'millilitres taken for grams',
      { events: list => event(list, 'adjusted', each => ({ ...each, mass: '2' })) },
      ['verdicts: differs'],
    ],
    [
      'a lot that was not identified',
      { events: list => event(list, 'reading-taken', each => ({ ...each, lot: 'BIC-8' })) },
      ['verdicts: differs'],
    ],
    [
      'grams that the typed text does not say',
      {
        events: list =>
          event(list, 'reading-taken', each => ({
            ...each,
            reading: { typed: '35.0', unit: 'g', mass: '350', scale: 'big' },
          })),
      },
      ['verdicts: differs'],
    ],
    [
      'a step left out',
      { events: list => list.filter(each => each['type'] !== 'ticked') },
      ['verdicts: not-workable', 'result: not-workable'],
    ],
    [
      'an event of no known kind',
      { events: list => event(list, 'ticked', each => ({ ...each, type: 'blessed' })) },
      ['verdicts: not-workable', 'result: not-workable'],
    ],
    [
      'an event with a part too many',
      { events: list => event(list, 'ticked', each => ({ ...each, quietly: true })) },
      ['verdicts: not-workable', 'result: not-workable'],
    ],
    [
      'no end',
      { events: list => list.slice(0, -1) },
      ['events: not-closed', 'result: not-workable'],
    ],
  ];
  test.each(lies)('%s', (_name, wishes, expected) => {
    const { folder } = writeWorkshop(wishes);
    expect(notHolding(folder)).toEqual(expected);
    expect(statusOf(folder)).toBe(1);
  });
});

describe('signatures', () => {
  const ada = makePerson('Ada');
  test.each<readonly [string, Wishes, string]>([
    ['of a stranger', { signer: makePerson('Ada'), enrolled: ada }, 'signature: unknown-key'],
    [
      'under another name than the key has',
      { signer: { ...ada, name: 'Eve' }, enrolled: ada },
      'signature: other-signer',
    ],
    ['with a meaning of their own', { meanings: ['blessed by'] }, 'signature: bad-header'],
    [
      'with a header more',
      { header: header => ({ ...header, crit: ['b64'] }) },
      'signature: bad-header',
    ],
    ['with a header less', { header: ({ at: _at, ...header }) => header }, 'signature: bad-header'],
    [
      'with no algorithm',
      { header: header => ({ ...header, alg: 'none' }) },
      'signature: bad-header',
    ],
    [
      'of something else',
      { header: header => ({ ...header, typ: 'JWT' }) },
      'signature: wrong-type',
    ],
    [
      'at no instant',
      { header: header => ({ ...header, at: '31 January' }) },
      'signature: no-instant',
    ],
    [
      'from another ledger',
      { header: header => ({ ...header, ledger: { seq: 1, prev: 'f'.repeat(64) } }) },
      'signature: other-ledger',
    ],
    [
      'from before the batch was closed',
      { header: header => ({ ...header, ledger: { seq: 0, prev: '0'.repeat(64) } }) },
      'signature: other-ledger',
    ],
  ])('%s do not hold', (_name, wishes, expected) => {
    const { folder } = writeWorkshop(wishes);
    expect(notHolding(folder)).toContain(expected);
    expect(statusOf(folder)).toBe(1);
  });

  test('EdDSA, the older name of the algorithm, is read too', () => {
    const { folder } = writeWorkshop({ header: header => ({ ...header, alg: 'EdDSA' }) });
    expect(statusOf(folder)).toBe(0);
  });

  test('each of several is looked at: one bad among good ones is found', () => {
    const meanings = ['made by', 'reviewed by', 'released by'];
    expect(statusOf(writeWorkshop({ meanings }).folder)).toBe(0);
    const header = (each: Json): Json =>
      each['meaning'] === 'reviewed by' ? { ...each, typ: 'JWT' } : each;
    expect(notHolding(writeWorkshop({ meanings, header }).folder)).toEqual([
      'signature: wrong-type',
    ]);
  });

  test('a removed signature is missed', () => {
    const written = writeWorkshop({ meanings: ['made by', 'reviewed by'] });
    edit(written, 'record.sig.json', text => {
      const { signatures } = JSON.parse(text) as { signatures: Json[] };
      return recordBytes({ signatures: signatures.slice(0, 1) });
    });
    expect(notHolding(written.folder)).toEqual(['signed: removed']);
    rmSync(written.path('record.sig.json'));
    expect(notHolding(written.folder)).toEqual(['signed: removed']);
  });

  test('the same signature in another base64 spelling is refused', () => {
    const written = writeWorkshop();
    // 64 bytes end in a character of which four bits count: its neighbour decodes to the same bytes.
    edit(written, 'record.sig.json', text =>
      text.replace(/("signature": "[\w-]{85})(.)"/, (_all, start: string, last: string) => {
        const alphabet = 'ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789-_';
        return `${start}${alphabet[alphabet.indexOf(last) + 1]}"`;
      }),
    );
    expect(notHolding(written.folder)).toContain('signature: wrong-signature');
  });

  test('the file has one byte form', () => {
    const written = writeWorkshop();
    edit(written, 'record.sig.json', text => JSON.stringify(JSON.parse(text)));
    expect(notHolding(written.folder)).toEqual(['signature: other-form']);
  });

  test('a record signed anew by a stranger, ledger and all, does not hold', () => {
    const written = writeWorkshop();
    const eve = { ...makePerson('Ada'), kid: written.signer.kid };
    const bytes = readFileSync(written.path('record.json'), 'utf8');
    const [line] = linesOf(readFileSync(written.path('ledger.jsonl'), 'utf8'));
    const ledger = { seq: 1, prev: (JSON.parse(line ?? '') as Json)['hash'] };
    const forged = signAs(eve, bytes, {
      alg: 'Ed25519',
      typ: 'vnd.tarebook.batch-record+json;version=0',
      kid: eve.kid,
      signer: 'Ada',
      meaning: 'made by',
      at: '2027-01-31T09:30:00.000+01:00',
      ledger,
    });
    writeFileSync(written.path('record.sig.json'), recordBytes({ signatures: [forged] }));
    expect(notHolding(written.folder)).toEqual(['signature: wrong-signature', 'signed: removed']);
  });
});

describe('ledger and register', () => {
  test('a record that the ledger does not know but that is signed does not hold', () => {
    const written = writeWorkshop();
    rechain(written, 'ledger.jsonl', () => []);
    expect(notHolding(written.folder)).toEqual([
      'closed: not-in-ledger',
      'signature: other-ledger',
      'signed: not-in-ledger',
    ]);
    expect(statusOf(written.folder)).toBe(1);
  });

  test('a ledger rewritten around another record does not fit the signature', () => {
    const written = writeWorkshop();
    rechain(written, 'ledger.jsonl', lines =>
      lines.map(line => (line['type'] === 'closed' ? { ...line, record: 'a'.repeat(64) } : line)),
    );
    expect(notHolding(written.folder)).toEqual(['closed: other-record', 'signature: other-ledger']);
  });

  test('another journal in the ledger, a batch closed twice and a signature twice are found', () => {
    const change = (to: (lines: Json[]) => Json[]): string[] => {
      const written = writeWorkshop();
      rechain(written, 'ledger.jsonl', to);
      return notHolding(written.folder);
    };
    const again = (n: number) => (lines: Json[]) => [...lines, { ...lines[n], seq: 3 }];
    expect(change(lines => [{ ...lines[0], journal: 'b'.repeat(64) }, lines[1]!])).toContain(
      'closed: other-journal',
    );
    expect(change(again(0))).toEqual(['closed: twice']);
    expect(change(again(1))).toEqual(['signed: twice']);
    expect(change(lines => [lines[0]!, { ...lines[1], meaning: 'released by' }])).toEqual([
      'signature: other-line',
    ]);
    expect(change(lines => [...lines, { seq: 3, at: '', by: 'Eve', type: 'blessed' }])).toEqual([
      'ledger: unknown-line',
    ]);
  });

  test('a key whose name is not its thumbprint is no key', () => {
    const written = writeWorkshop({ enrolled: { ...makePerson('Ada'), kid: 'A'.repeat(43) } });
    expect(notHolding(written.folder)).toContain('register: unknown-line');
  });

  test('an old record under a new number is found', () => {
    const written = writeWorkshop();
    const copy = join(written.room, 'batches', 'PRF-2027-002');
    cpSync(written.folder, copy, { recursive: true });
    expect(notHolding(copy)).toEqual([
      'number: other-batch',
      'closed: not-in-ledger',
      'signature: other-ledger',
      'signed: not-in-ledger',
    ]);
    expect(statusOf(copy)).toBe(1);
  });

  test('a practice batch carried among the real ones is found', () => {
    const written = writeWorkshop({ practice: true });
    const elsewhere = join(written.room, '..', 'real');
    renameSync(written.room, elsewhere);
    expect(notHolding(join(elsewhere, 'batches', written.batch))).toEqual(['number: practice']);
  });
});

describe('closing that is not finished is status 4, never good', () => {
  const after = (steps: (written: Written) => void): readonly [string[], number] => {
    const written = writeWorkshop();
    steps(written);
    return [notHolding(written.folder), statusOf(written.folder)];
  };
  const without =
    (...names: readonly string[]) =>
    (written: Written) =>
      names.forEach(name => rmSync(written.path(name)));

  test('while the batch is open', () => {
    const open = (written: Written): void => {
      without('record.json', 'record.sig.json', 'ledger.jsonl')(written);
      edit(written, 'journal.jsonl', text => joined(linesOf(text).slice(0, 5)));
    };
    expect(after(open)).toEqual([['finished: still-open'], 4]);
  });

  test('before the record is written', () => {
    expect(after(without('record.json', 'record.sig.json', 'ledger.jsonl'))).toEqual([
      ['finished: no-record'],
      4,
    ]);
  });

  test('before the record is in the ledger', () => {
    const [found, status] = after(without('record.sig.json', 'ledger.jsonl'));
    expect(found).toEqual(['closed: not-in-ledger', 'signature: unsigned']);
    expect(status).toBe(4);
  });

  test('before it is signed', () => {
    const unsigned = (written: Written): void => {
      without('record.sig.json')(written);
      edit(written, 'ledger.jsonl', text => joined(linesOf(text).slice(0, 1)));
    };
    expect(after(unsigned)).toEqual([['signature: unsigned'], 4]);
  });

  test('before the signature is in the ledger', () => {
    const cut = (written: Written): void =>
      edit(written, 'ledger.jsonl', text => joined(linesOf(text).slice(0, 1)));
    expect(after(cut)).toEqual([['signed: not-in-ledger'], 4]);
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
    expect(notHolding(writeWorkshop({ events }).folder)).toEqual([
      'verdicts: not-workable',
      'result: not-workable',
    ]);
  });
});

describe('tampering', () => {
  const files = [
    'record.json',
    'record.sig.json',
    'journal.jsonl',
    'ledger.jsonl',
    'register.jsonl',
  ] as const;
  const isGood = ({ folder }: Written): boolean => statusOf(folder) === 0;

  test.each(files)('any changed, added or lost byte of %s is found', name => {
    const written = writeWorkshop();
    const good = readFileSync(written.path(name));
    for (let n = 0; n < cases(60); n += 1) {
      const at = (seed + n * 7919) % good.length;
      const changed = Buffer.from(good);
      changed[at] = (changed[at] ?? 0) ^ (1 << (n % 8));
      const versions = [
        changed,
        Buffer.concat([good.subarray(0, at), good.subarray(at + 1)]),
        Buffer.concat([good.subarray(0, at), Buffer.from(' '), good.subarray(at)]),
      ];
      for (const bytes of versions) {
        writeFileSync(written.path(name), bytes);
        expect(isGood(written), `${name} at ${at}, seed ${seed}`).toBe(false);
      }
    }
    writeFileSync(written.path(name), good);
    expect(isGood(written)).toBe(true);
  });

  test.each(['journal.jsonl', 'ledger.jsonl', 'register.jsonl'])(
    'any dropped or exchanged line of %s is found',
    name => {
      const written = writeWorkshop({ meanings: ['made by', 'reviewed by'] });
      const lines = linesOf(readFileSync(written.path(name), 'utf8'));
      for (let n = 0; n < lines.length; n += 1) {
        writeFileSync(written.path(name), joined(lines.toSpliced(n, 1)));
        expect(isGood(written), `without line ${n + 1}`).toBe(false);
        const other = (n + 1) % lines.length;
        writeFileSync(
          written.path(name),
          joined(lines.with(n, lines[other]!).with(other, lines[n]!)),
        );
        expect(isGood(written), `line ${n + 1} exchanged`).toBe(false);
      }
    },
  );
});
