import { cpSync, readFileSync, renameSync, rmSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, test } from 'vitest';
import {
  type Json,
  makePerson,
  recordBytes,
  signAs,
  type Wishes,
  writeWorkshop,
} from '../../helpers/record.ts';
import { edit, linesOf, notHolding, rechain, statusOf } from '../../helpers/tamper.ts';

const header = (each: Json): Json =>
  each['meaning'] === 'reviewed by' ? { ...each, typ: 'JWT' } : each;

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
    const meanings = ['made by', 'reviewed by', 'rejected by'];
    expect(statusOf(writeWorkshop({ meanings }).folder)).toBe(0);
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

/** What does not hold once the ledger has other lines, chained rightly. */
const withLedger = (to: (lines: Json[]) => Json[]): string[] => {
  const written = writeWorkshop();
  rechain(written, 'ledger.jsonl', to);
  return notHolding(written.folder);
};

const again = (n: number) => (lines: Json[]) => [...lines, { ...lines[n], seq: 3 }];

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
    expect(withLedger(lines => [{ ...lines[0], journal: 'b'.repeat(64) }, lines[1]!])).toContain(
      'closed: other-journal',
    );
    expect(withLedger(again(0))).toEqual(['closed: twice']);
    expect(withLedger(again(1))).toEqual(['signed: twice']);
    expect(withLedger(lines => [lines[0]!, { ...lines[1], meaning: 'reviewed by' }])).toEqual([
      'signature: other-line',
    ]);
    expect(withLedger(lines => [...lines, { seq: 3, at: '', by: 'Eve', type: 'blessed' }])).toEqual(
      ['ledger: unknown-line'],
    );
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
