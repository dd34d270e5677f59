import { readFileSync, writeFileSync } from 'node:fs';
import { describe, expect, test } from 'vitest';
import { cases, seed } from '../../helpers/cases.ts';
import { type Written, writeWorkshop } from '../../helpers/record.ts';
import { joined, linesOf, statusOf } from '../../helpers/tamper.ts';

const isGood = ({ folder }: Written): boolean => statusOf(folder) === 0;

describe('tampering', () => {
  const files = [
    'record.json',
    'record.sig.json',
    'journal.jsonl',
    'ledger.jsonl',
    'register.jsonl',
  ] as const;
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
