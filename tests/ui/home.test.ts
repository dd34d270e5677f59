import { expect, test } from 'vitest';
import type { HomeModel } from '../../src/core/dialogue/home.ts';
import { firstHome, type HomeStep, pressAtHome } from '../../src/ui/home-state.ts';
import { decodeKeys, freshDecoder } from '../../src/ui/keys/decoder.ts';
import { cellWidth } from '../../src/ui/view/cells.ts';
import { homeRows } from '../../src/ui/view/home-rows.ts';
import { paperFor } from '../../src/ui/view/paper.ts';
import { textOf } from '../../src/ui/view/row.ts';

const empty: HomeModel = { sheets: [], inHand: [], closed: [], unreadable: [] };

const demo = { path: '/demo/fern.yaml', name: 'Fern domes', isDemo: true };
const own = { path: 'sheets/cedar.yaml', name: 'Cedar domes', isDemo: false };

// Invented.
const busy: HomeModel = {
  sheets: [own, { path: 'sheets/bad.yaml', name: undefined, isDemo: false }, demo],
  inHand: [{ batch: 'CDR-2027-014', practice: false, where: 'Cedar domes, step 7 of 14, Ada' }],
  closed: [{ batch: 'CDR-2027-013', practice: true, state: 'signed by Ada' }],
  unreadable: [{ batch: 'CDR-2027-001', why: 'Line 3 of its journal is damaged.' }],
};

const size = { columns: 80, rows: 24 };

const press = (model: HomeModel, bytes: string, at = size): HomeStep => {
  let step: HomeStep = { state: firstHome(at) };
  for (const key of decodeKeys(freshDecoder, bytes).keys) {
    if (step.choice === undefined) step = pressAtHome(model, step.state, key);
  }
  return step;
};

const linesOf = (model: HomeModel, bytes: string, at = size): readonly string[] =>
  homeRows(
    model,
    press(model, bytes, at).state,
    paperFor({ columns: at.columns, rows: at.rows - 1 }, false, { epochMs: 0, offset: 0 }),
  ).map(textOf);

const down = '\u001b[B';

test('begins a practice batch of a demo sheet with one key at the first start', () => {
  const model = { ...empty, sheets: [demo] };
  expect(press(model, '\r').choice).toEqual({ kind: 'run', path: demo.path, practice: true });
  const text = linesOf(model, '').join('\n');
  expect(text).toContain('Tarebook walks you through a batch');
  expect(text).toContain('> Fern domes');
  expect(text).toContain('Enter makes a practice batch of it.');
});

test('says before Enter whether an own sheet is made for real or for practice', () => {
  expect(linesOf(busy, down).join('\n')).toContain(
    'Enter makes a real batch of it. Tab: for practice.',
  );
  expect(press(busy, `${down}\r`).choice).toEqual({ kind: 'run', path: own.path, practice: false });
  expect(linesOf(busy, `${down}\t`).join('\n')).toContain('Enter makes a practice batch of it.');
  expect(press(busy, `${down}\t\r`).choice).toEqual({
    kind: 'run',
    path: own.path,
    practice: true,
  });
});

test('never makes a real batch of a demo sheet', () => {
  for (const keys of [`${down}${down}${down}\r`, `${down}${down}${down}\t\r`]) {
    expect(press(busy, keys).choice).toEqual({ kind: 'run', path: demo.path, practice: true });
  }
});

test('goes on with a batch in hand and shows a closed one', () => {
  expect(press(busy, '\r').choice).toEqual({
    kind: 'resume',
    batch: 'CDR-2027-014',
    practice: false,
  });
  expect(press(busy, `${down.repeat(4)}\r`).choice).toEqual({
    kind: 'show',
    batch: 'CDR-2027-013',
    practice: true,
  });
});

test('tells why a line cannot be chosen', () => {
  expect(press(busy, `${down}${down}\r`).choice).toBeUndefined();
  expect(linesOf(busy, `${down}${down}`).join('\n')).toContain('tarebook check sheets/bad.yaml');
  expect(linesOf(busy, down.repeat(9)).join('\n')).toContain('Line 3 of its journal is damaged.');
});

test('does nothing on a scanned code but name it', () => {
  const { choice, state } = press(busy, 'lot-d4y7q\r');
  expect(choice).toBeUndefined();
  expect(state.at).toBe(0);
  expect(linesOf(busy, 'lot-d4y7q\r').join('\n')).toContain('lot-d4y7q is not expected here');
});

test('leaves on the word', () => {
  expect(press(busy, 'leave\r').choice).toEqual({ kind: 'leave' });
});

test('chooses nothing in a window that is too small', () => {
  const small = { columns: 40, rows: 10 };
  expect(press(busy, '\r', small).choice).toBeUndefined();
  expect(linesOf(busy, '', small).join(' ')).toContain('needs 60 x 20');
});

test('keeps the chosen line in view among hundreds, in exactly its rows', () => {
  const many = {
    ...busy,
    closed: Array.from({ length: 300 }, (_, at) => ({
      batch: `CDR-2026-${at}`,
      practice: false,
      state: 'signed by Ada',
    })),
  };
  for (const at of [
    { columns: 60, rows: 20 },
    { columns: 80, rows: 24 },
    { columns: 120, rows: 40 },
  ]) {
    for (const steps of [0, 5, 150, 400]) {
      const lines = linesOf(many, down.repeat(steps), at);
      expect(lines).toHaveLength(at.rows - 1);
      expect(lines.filter(line => line.startsWith('> '))).toHaveLength(1);
      expect(Math.max(...lines.map(cellWidth))).toBeLessThanOrEqual(at.columns);
    }
  }
});
