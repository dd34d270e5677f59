import { toExact } from '../../src/core/quantity/decimal.ts';
import type { Part, Way } from '../../src/core/run/event.ts';
import type { Intent } from '../../src/core/run/intent.ts';
import { lot, vessel } from './bench-sheet.ts';
import { additionState, given, openRun, type Story } from './given.ts';
import { sheetText } from './sheet-text.ts';

/** Soda 600 g (594.0 to 606.0) and acid 400 g (396.0 to 404.0) in a bowl, on the scale big (0.1 g). */
export const plain = sheetText();
export const weighed: readonly Intent[] = [vessel('bowl', '300'), lot(1, 'S-1')];
/** At the reading of the soda. */
export const soda = given(plain, ...weighed);

export const read = (step: number, way: Way, part: Part, typed: string): Intent => ({
  type: 'read',
  step,
  way,
  part,
  typed,
});
export const tare = (step: number): Intent => ({ type: 'tare', step });
export const back = (
  step: number,
  typed: string,
  way: Way = 'net',
  part: Part = 'display',
): Intent => ({ type: 'take-back', step, way, part, typed });
export const amend = (seq: number, typed: string): Intent => ({
  type: 'amend',
  seq,
  typed,
  reason: 'digits swapped',
});

export const totalOf = (story: Story, n: number): string => toExact(additionState(story, n).total);
export const contentsOf = (story: Story, name: string): string => {
  const found = openRun(story).vessels.get(name);
  return found === undefined ? 'not weighed' : toExact(found.contents);
};
/** Lot, net and waste of each pour. */
export const poursOf = (story: Story, n: number) =>
  additionState(story, n).pours.map(pour => [pour.lot, toExact(pour.net), toExact(pour.waste)]);
