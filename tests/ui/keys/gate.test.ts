import { expect, test } from 'vitest';
import {
  afterAnswer,
  afterAsking,
  afterEcho,
  afterPainting,
  afterUnseen,
  isEcho,
  isUnseen,
  openGate,
} from '../../../src/ui/keys/gate.ts';
import { questionOf } from '../../helpers/fake-conversation.ts';

const first = questionOf({ step: 3 });
const second = questionOf({ step: 4 });
const over = questionOf({ kind: 'over', step: 4, isDeliberate: true });

test('takes for an echo what begins within 300 ms after a step was answered', () => {
  const gate = afterAnswer(openGate, first, second, 1000);
  expect(isEcho(gate, 999)).toBe(true);
  expect(isEcho(gate, 1299)).toBe(true);
  expect(isEcho(gate, 1300)).toBe(false);
});

test('lets a second reading of the same step through', () => {
  expect(isEcho(afterAnswer(openGate, first, first, 1000), 1001)).toBe(false);
});

test('stays shut while a device goes on by itself', () => {
  const gate = afterEcho(afterAnswer(openGate, first, second, 1000), 1250);
  expect(isEcho(gate, 1500)).toBe(true);
  expect(isEcho(gate, 1550)).toBe(false);
});

test('lets nothing answer a deliberate question before it was painted and 400 ms more', () => {
  const asked = afterAsking(openGate, over);
  expect(isUnseen(asked, over, 1e9)).toBe(true);
  const painted = afterPainting(asked, 1000);
  expect(isUnseen(painted, over, 1399)).toBe(true);
  expect(isUnseen(painted, over, 1400)).toBe(false);
  expect(afterPainting(painted, 5000)).toEqual(painted);
});

test('keeps the rest of a burst out with its start', () => {
  const gate = afterUnseen(afterPainting(afterAsking(openGate, over), 1000), 1390);
  expect(isUnseen(gate, over, 1430)).toBe(true);
  expect(isUnseen(gate, over, 1490)).toBe(false);
});

test('asks no wait before an ordinary question', () => {
  expect(isUnseen(afterAsking(openGate, first), first, 0)).toBe(false);
});
