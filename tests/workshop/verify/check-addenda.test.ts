import { mkdirSync, readFileSync, rmSync, symlinkSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, test } from 'vitest';
import { verifyBatch } from '../../../src/workshop/verify/verify-batch.ts';
import { type AddendumWishes, addTo, signLater } from '../../helpers/addenda.ts';
import { cases, seed } from '../../helpers/cases.ts';
import { type Json, makePerson, type Written, writeWorkshop } from '../../helpers/record.ts';
import { edit, notHolding, rechain, statusOf } from '../../helpers/tamper.ts';

const withAddenda = (...all: readonly AddendumWishes[]): Written => {
  const written = writeWorkshop();
  all.forEach((wishes, index) => addTo(written, { n: index + 1, ...wishes }));
  return written;
};

const assessment = { addendum: { kind: 'assessment', refers: 1, text: 'No harm: it was dry.' } };
const said = ({ folder }: Written): string =>
  verifyBatch(folder)
    .claims.map(each => each.text)
    .join('\n');

const isOther = (line: Json): boolean => line['n'] !== 1;

describe('addenda', () => {
  test('that were written by hand from the documented formats are good', () => {
    const written = withAddenda({}, { addendum: { kind: 'complaint', text: 'Crumbles.' } });
    expect(notHolding(written.folder)).toEqual([]);
    expect(said(written)).toContain('Ada added number 2: complaint');
  });

  test.each<readonly [string, AddendumWishes, string]>([
    ['of another batch', { addendum: { batch: 'PRF-2027-002' } }, 'other-batch'],
    ['to another record', { addendum: { record: 'a'.repeat(64) } }, 'other-record'],
    ['of another version', { addendum: { type: 'text/plain' } }, 'other-form'],
    ['of no known kind', { addendum: { kind: 'poem' } }, 'other-form'],
    ['with a member more', { addendum: { more: 1 } }, 'other-form'],
    ['at no instant', { addendum: { at: 'today' } }, 'other-form'],
    ['in another’s name', { addendum: { by: 'Eve' } }, 'other-line'],
    ['that assess nothing', { addendum: { kind: 'assessment' } }, 'reference'],
    ['that assess what is not there', { addendum: { kind: 'assessment', refers: 2 } }, 'reference'],
    ['that refer but do not assess', { addendum: { refers: 1 } }, 'reference'],
    ['signed for something else', { header: { meaning: 'made by' } }, 'bad-signature'],
    ['signed as a record is', { header: { typ: 'vnd.x+json' } }, 'wrong-type'],
    ['signed by a stranger', { header: { signer: 'Eve' } }, 'other-signer'],
    ['signed with no key of ours', { header: { kid: makePerson('Eve').kid } }, 'unknown-key'],
    [
      'signed on another ledger',
      { header: { ledger: { seq: 1, prev: 'f'.repeat(64) } } },
      'other-ledger',
    ],
    ['that the ledger calls otherwise', { line: { kind: 'complaint' } }, 'other-line'],
    ['that the ledger lets refer', { line: { refers: 1 } }, 'other-line'],
    ['with another hash there', { line: { addendum: 'b'.repeat(64) } }, 'other-addendum'],
    ['with another signature there', { line: { signature: 'c'.repeat(64) } }, 'other-line'],
  ])('%s do not hold', (_name, wishes, code) => {
    const { folder } = withAddenda(wishes);
    expect(notHolding(folder).join()).toContain(`addendum: ${code}`);
    expect(statusOf(folder)).toBe(1);
  });

  test('of another person’s making, with the ledger as witness, do not hold', () => {
    const written = withAddenda({ addendum: { by: 'Eve' }, line: { signer: 'Eve' } });
    expect(notHolding(written.folder)).toEqual(['addendum: other-signer']);
  });

  test.each(['addenda/001.json', 'addenda/001.sig.json'])('miss %s when it is gone', name => {
    const written = withAddenda({});
    rmSync(written.path(name));
    expect(statusOf(written.folder)).toBe(1);
  });

  test('that are gone altogether are missed', () => {
    const written = withAddenda({}, {});
    rmSync(join(written.folder, 'addenda'), { recursive: true });
    expect(notHolding(written.folder)).toEqual(['addendum: missing', 'addendum: missing']);
  });

  test('that the ledger never saw, or sees in another order, do not hold', () => {
    const lost = withAddenda({}, {});
    rechain(lost, 'ledger.jsonl', lines =>
      lines.filter(isOther).map((line, index) => ({ ...line, seq: index + 1 })),
    );
    expect(statusOf(lost.folder)).toBe(1);
    expect(notHolding(lost.folder)).toContain('added: numbering');
  });

  test('with a gap in their numbers do not hold', () => {
    const written = withAddenda({}, { n: 3 });
    expect(notHolding(written.folder)).toEqual(['added: numbering']);
    const waiting = withAddenda({}, { n: 3, until: 'signature' });
    expect(notHolding(waiting.folder)).toContain('added: gap');
  });

  test.each(['002.txt', '0002.json', '000.json', 'note'])('do not bear a stray %s', name => {
    const written = withAddenda({});
    writeFileSync(join(written.folder, 'addenda', name), '');
    expect(notHolding(written.folder)).toEqual(['added: stray']);
  });

  test('bear what a power cut left of a file that was being written', () => {
    const written = withAddenda({});
    writeFileSync(join(written.folder, 'addenda', '002.json.new-0123456789ab'), '{');
    expect(notHolding(written.folder)).toEqual([]);
  });

  test('are neither a file nor a link', () => {
    const [file, link] = [writeWorkshop(), writeWorkshop()];
    writeFileSync(join(file.folder, 'addenda'), '');
    symlinkSync(file.room, join(link.folder, 'addenda'));
    for (const { folder } of [file, link]) {
      expect(notHolding(folder)).toEqual(['added: unreadable']);
    }
    const inside = writeWorkshop();
    mkdirSync(join(inside.folder, 'addenda', '001.json'), { recursive: true });
    expect(notHolding(inside.folder)).toEqual(['addendum: unreadable']);
  });

  test('that were interrupted are unfinished, not counted, and nothing worse', () => {
    const drafted = withAddenda({}, { until: 'file' });
    expect(notHolding(drafted.folder)).toEqual(['addendum: unsigned']);
    expect(statusOf(drafted.folder)).toBe(4);
    const signed = withAddenda({}, { until: 'signature' });
    expect(notHolding(signed.folder)).toEqual(['addendum: not-in-ledger']);
    expect(statusOf(signed.folder)).toBe(4);
    const two = withAddenda({ until: 'signature' }, { until: 'signature' });
    expect(statusOf(two.folder)).toBe(1);
  });

  test('of a batch whose record is gone say that it was closed', () => {
    const written = withAddenda({});
    for (const name of ['record.json', 'record.sig.json', 'ledger.jsonl'])
      rmSync(written.path(name));
    expect(notHolding(written.folder)).toEqual(['record: missing']);
  });

  test.each(['addenda/001.json', 'addenda/001.sig.json'])('show any changed byte of %s', name => {
    const written = withAddenda({});
    const good = readFileSync(written.path(name));
    for (let n = 0; n < cases(60); n += 1) {
      const place = (seed + n * 7919) % good.length;
      const changed = Buffer.from(good);
      changed[place] = (changed[place] ?? 0) ^ (1 << (n % 8));
      for (const bytes of [changed, good.subarray(0, place)]) {
        writeFileSync(written.path(name), bytes);
        expect(statusOf(written.folder), `${name} at ${place}, seed ${seed}`).toBe(1);
      }
    }
  });
});

describe('the state of a batch', () => {
  test('is as it was closed until somebody decides', () => {
    expect(said(writeWorkshop())).toContain('The batch is made; nobody has released or rejected');
  });

  test('is what the latest deciding signature says', () => {
    const written = withAddenda(assessment);
    signLater(written, 'released by');
    expect(said(written)).toContain('The batch is released, by Ada');
    signLater(written, 'rejected by');
    signLater(written, 'reviewed by');
    expect(said(written)).toContain('The batch is rejected, by Ada');
    expect(statusOf(written.folder)).toBe(0);
  });

  test('cannot be released before each deviation is assessed', () => {
    const late = writeWorkshop();
    signLater(late, 'released by');
    addTo(late, assessment);
    const otherwise = withAddenda({});
    signLater(otherwise, 'released by');
    for (const { folder } of [late, otherwise]) {
      expect(notHolding(folder)).toEqual(['state: unassessed']);
      expect(statusOf(folder)).toBe(1);
    }
  });

  test('cannot be released by an assessment that does not hold', () => {
    const written = withAddenda(assessment);
    signLater(written, 'released by');
    edit(written, 'addenda/001.json', text => text.replace('No harm', 'Harm'));
    expect(notHolding(written.folder)).toEqual(['addendum: other-addendum', 'state: unassessed']);
  });

  test('is not looked at where the record cannot be read', () => {
    const written = withAddenda({});
    edit(written, 'record.json', text => text.replace('"type"', '"typo"'));
    const claim = verifyBatch(written.folder).claims.find(each => each.claim === 'state');
    expect(claim?.state).toBe('not-checked');
  });
});
