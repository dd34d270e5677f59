import { appendFileSync, existsSync, readFileSync, writeFileSync } from 'node:fs';
import { describe, expect, test } from 'vitest';
import type { Scale } from '../../src/core/plan/plan.ts';
import { firstHash, formatLine } from '../../src/workshop/chained-line.ts';
import {
  enterKey,
  enterScale,
  keysOf,
  readRegister,
  scalesOf,
} from '../../src/workshop/register.ts';
import type { Workshop } from '../../src/workshop/workshop.ts';
import { workshopIn } from '../helpers/batch.ts';
import { mass } from '../helpers/sheet.ts';
import { tempDir } from '../helpers/temp-dir.ts';

// Invented data throughout; the key is that of RFC 8037 appendix A.
const big: Scale = { name: 'big', capacity: mass('10000'), readability: mass('0.1'), unit: 'g' };
const ounces: Scale = {
  name: 'old one',
  capacity: mass('3200'),
  readability: mass('45359237/1600000'),
  unit: 'oz',
};
const key = {
  kid: 'kPrK_qmxVWaYVA9wwBF6Iuo3vVzz7TxHCTwXBygrS4k',
  jwk: { kty: 'OKP', crv: 'Ed25519', x: '11qYAYKxCrfVS_7TyWQHOg7hcvPapiMlrwIaaPcHURo' },
} as const;

const lines = (workshop: Workshop) => {
  const read = readRegister(workshop);
  if (!read.ok) throw new Error(read.why);
  return read.value;
};

test('nothing is made by reading', () => {
  const workshop = workshopIn(tempDir());
  expect(lines(workshop)).toEqual([]);
  expect(existsSync(workshop.register)).toBe(false);
});

test('a scale comes back exactly; a later line of its name replaces it', () => {
  const workshop = workshopIn(tempDir());
  for (const scale of [big, ounces, { ...big, readability: mass('0.5') }]) {
    expect(enterScale(workshop, scale, 'Ana').ok).toBe(true);
  }
  expect(scalesOf(lines(workshop))).toEqual([{ ...big, readability: mass('0.5') }, ounces]);
});

test('a person’s keys come back, the latest first, and nobody else’s', () => {
  const workshop = workshopIn(tempDir());
  const later = { ...key, kid: 'A'.repeat(43) };
  for (const [name, each] of [
    ['Ana', key],
    ['Ben', later],
    ['Ana', later],
  ] as const) {
    expect(enterKey(workshop, name, each).ok).toBe(true);
  }
  expect(keysOf(lines(workshop), 'Ana')).toEqual([later, key]);
  expect(keysOf(lines(workshop), 'Cy')).toEqual([]);
});

test('a line says its number, instant, person and kind first', () => {
  const workshop = workshopIn(tempDir());
  expect(enterScale(workshop, big, 'Ana').ok).toBe(true);
  expect(readFileSync(workshop.register, 'utf8')).toMatch(
    /^\{"seq":1,"at":"2027-03-04T09:00:\d\d\.000\+01:00","by":"Ana","type":"scale-entered","name":"big","capacity":"10000","readability":"0\.1","unit":"g","hash":"[0-9a-f]{64}"\}\n$/,
  );
});

test('a name that a terminal may obey is not entered', () => {
  const workshop = workshopIn(tempDir());
  const refused = enterScale(workshop, { ...big, name: 'big\u001b[2J' }, 'Ana');
  expect(refused).toMatchObject({ ok: false, why: expect.stringContaining('cannot take this') });
  expect(enterScale(workshop, big, '').ok).toBe(false);
  expect(lines(workshop)).toEqual([]);
});

describe('a register is refused with its line', () => {
  const head = { seq: 1, at: '2027-03-04T09:00:00.000+01:00', by: 'Ana' };
  const scale = { ...head, type: 'scale-entered', name: 'x', capacity: '1', readability: '1' };
  test.each([
    ['an unknown kind', { ...head, type: 'erased' }],
    ['another number', { ...scale, unit: 'g', seq: 2 }],
    ['a unit that no scale has', { ...scale, unit: 'mL' }],
    ['a mass that is none', { ...scale, unit: 'g', capacity: '1e9' }],
    [
      'a key of another kind',
      { ...head, type: 'enrolled', name: 'Ana', kid: key.kid, key: { ...key.jwk, crv: 'X25519' } },
    ],
    ['a member too many', { ...scale, unit: 'g', more: 1 }],
    ['no instant', { ...scale, unit: 'g', at: 'yesterday' }],
  ])('for %s', (_, line) => {
    const workshop = workshopIn(tempDir());
    writeFileSync(workshop.register, formatLine(line, firstHash).text);
    const refused = {
      ok: false,
      why: expect.stringContaining('register.jsonl is damaged in line 1'),
    };
    expect(readRegister(workshop)).toMatchObject(refused);
    expect(enterScale(workshop, big, 'Ana')).toMatchObject(refused);
  });

  test('that was changed', () => {
    const workshop = workshopIn(tempDir());
    expect(enterScale(workshop, big, 'Ana').ok).toBe(true);
    writeFileSync(workshop.register, readFileSync(workshop.register, 'utf8').replace('0.1', '0.2'));
    expect(readRegister(workshop).ok).toBe(false);
  });
});

test('a torn last line is not counted, and mended and told by the next entry', () => {
  const told: string[] = [];
  const workshop = workshopIn(tempDir(), { told });
  expect(enterScale(workshop, big, 'Ana').ok).toBe(true);
  appendFileSync(workshop.register, '{"seq":2');
  expect(scalesOf(lines(workshop))).toEqual([big]);
  expect(told).toEqual([]);
  expect(enterScale(workshop, ounces, 'Ana').ok).toBe(true);
  expect(told).toEqual([expect.stringContaining('register.torn-1.jsonl')]);
  expect(scalesOf(lines(workshop))).toEqual([big, ounces]);
});
