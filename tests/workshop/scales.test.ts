import { readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, test } from 'vitest';
import type { Scale } from '../../src/core/plan/plan.ts';
import { readSheet } from '../../src/core/sheet/read-sheet.ts';
import { formatLine } from '../../src/workshop/chained-line.ts';
import { beginBatch } from '../../src/workshop/open-batch.ts';
import {
  enterScale,
  enterScaleCheck,
  readRegister,
  retireScale,
  scalesOf,
} from '../../src/workshop/register.ts';
import { readBooks } from '../../src/workshop/verify/books.ts';
import type { Workshop } from '../../src/workshop/workshop.ts';
import { saltOpening, workshopIn } from '../helpers/batch.ts';
import { saltSheet } from '../helpers/salt-sheet.ts';
import { mass } from '../helpers/sheet.ts';
import { tempDir } from '../helpers/temp-dir.ts';

// Invented: class III of e 1 g, 10 000 e.
const big: Scale = {
  name: 'big',
  capacity: mass('10000'),
  readability: mass('0.1'),
  unit: 'g',
  interval: mass('1'),
  accuracyClass: 'III',
  leastLoad: mass('15'),
};
const fine: Scale = { name: 'fine', capacity: mass('200'), readability: mass('0.01'), unit: 'g' };
const load = { masses: [{ nominal: mass('500'), massClass: 'F2' as const }], shown: mass('499.9') };

const scalesIn = (workshop: Workshop): readonly Scale[] => {
  const read = readRegister(workshop);
  if (!read.ok) throw new Error(read.why);
  return scalesOf(read.value);
};

const withBig = (): Workshop => {
  const workshop = workshopIn(tempDir());
  expect(enterScale(workshop, big, 'Ana').ok).toBe(true);
  return workshop;
};

const checked = (workshop: Workshop, verdict: 'within' | 'beyond' = 'within') =>
  enterScaleCheck(workshop, 'big', { loads: [load], verdict, repeat: [] }, 'Ben');

test('all that is known of a scale comes back, its check and its repeatability added', () => {
  const workshop = withBig();
  expect(scalesIn(workshop)).toEqual([big]);
  expect(checked(workshop).ok).toBe(true);
  const repeat = Array.from({ length: 10 }, () => mass('100.1'));
  const measured = { loads: [], repeat, repeatability: mass('0.05') };
  expect(enterScaleCheck(workshop, 'big', measured, 'Ben').ok).toBe(true);
  expect(scalesIn(workshop)).toEqual([
    {
      ...big,
      repeatability: mass('0.05'),
      lastCheck: { at: expect.stringMatching(/^2027-03-04T09:00/), verdict: 'within' },
    },
  ]);
});

test('a scale that is entered again has its checks behind it', () => {
  const workshop = withBig();
  checked(workshop);
  enterScale(workshop, scalesIn(workshop)[0] ?? big, 'Ana');
  expect(scalesIn(workshop)).toEqual([big]);
});

test('a retired scale is out of use, until it is entered again', () => {
  const workshop = withBig();
  enterScale(workshop, fine, 'Ana');
  expect(retireScale(workshop, 'big', 'dropped', 'Ana').ok).toBe(true);
  expect(scalesIn(workshop)).toEqual([fine]);
  expect(checked(workshop)).toMatchObject({
    ok: false,
    why: 'There is no scale “big” in use.',
  });
  expect(retireScale(workshop, 'big', 'dropped', 'Ana').ok).toBe(false);
  enterScale(workshop, big, 'Ana');
  expect(scalesIn(workshop)).toEqual([fine, big]);
});

test('verify knows the lines, and none that says more', () => {
  const workshop = withBig();
  checked(workshop);
  retireScale(workshop, 'big', 'dropped', 'Ana');
  const claim = () => readBooks(workshop.folder).claims.find(each => each.claim === 'register');
  expect(claim()).toMatchObject({ state: 'holds' });
  const text = readFileSync(workshop.register, 'utf8').trimEnd().split('\n');
  const { hash: _hash, ...last } = JSON.parse(text[2] ?? '') as Record<string, unknown>;
  const before = (JSON.parse(text[1] ?? '') as { hash: string }).hash;
  const more = formatLine({ ...last, more: 1, seq: 3 }, before).text;
  writeFileSync(workshop.register, `${text.slice(0, 2).join('\n')}\n${more}`);
  expect(claim()).toMatchObject({ state: 'fails', code: 'unknown-line' });
  expect(readRegister(workshop).ok).toBe(false);
});

const settings = (workshop: Workshop, text: string): void =>
  writeFileSync(join(workshop.folder, 'settings.yaml'), text);
const begin = (workshop: Workshop) => {
  const held = beginBatch(workshop, saltOpening(), scalesIn(workshop), {
    by: 'Ana',
    scaleReason: 'no test masses at hand',
  });
  if (held.ok) held.value.release();
  return held;
};

const begunIn = (workshop: Workshop) => {
  const held = begin(workshop);
  if (!held.ok) throw new Error(held.why);
  const run = held.value.session.state();
  return run.phase === 'unbegun' ? undefined : run.events[0]?.event;
};

describe('a batch whose scales are to be checked', () => {
  test('begins without it as a deviation, and its first event says so', () => {
    const workshop = withBig();
    settings(workshop, 'scale check: 24 h\n');
    expect(begunIn(workshop)).toMatchObject({
      scaleCheck: { within: 86_400, otherwise: 'deviation' },
      scales: [{ name: 'big', interval: '1', accuracyClass: 'III', leastLoad: '15' }],
    });
  });

  test('is refused without it where the workshop says so, and begins with it', () => {
    const workshop = withBig();
    settings(workshop, 'scale check: {within: 24 h, else: refuse}\n');
    expect(begin(workshop)).toMatchObject({
      ok: false,
      why: expect.stringContaining('The scale “big” was never checked.'),
    });
    checked(workshop);
    expect(begunIn(workshop)).toMatchObject({ scales: [{ lastCheck: { verdict: 'within' } }] });
  });

  test('follows its sheet before its workshop', () => {
    const workshop = withBig();
    settings(workshop, 'scale check: {within: 24 h, else: refuse}\n');
    const sheetText = `scale check: 1 h\n${saltSheet}`;
    const read = readSheet(sheetText);
    if (!read.ok) throw new Error(JSON.stringify(read.problems));
    const opening = { ...saltOpening(), sheet: read.sheet, sheetText };
    const held = beginBatch(workshop, opening, scalesIn(workshop), {
      by: 'Ana',
      scaleReason: 'no test masses at hand',
    });
    expect(held.ok).toBe(true);
    if (held.ok) held.value.release();
  });

  test('does not begin under settings that cannot be read', () => {
    const workshop = withBig();
    settings(workshop, 'scale chekc: 24 h\n');
    expect(begin(workshop)).toMatchObject({
      ok: false,
      why: expect.stringMatching(/settings\.yaml:1:1: There is no key “scale chekc” here\./),
    });
  });
});
