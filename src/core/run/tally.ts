/** Counting and weighing what came out: the questions of a tally, in their fixed order. */
import type { TallyStep } from '../sheet/sheet.ts';
import type { TallyItem } from './event.ts';
import type { TallyEntry } from './state.ts';

export interface TallyDue {
  readonly item: TallyItem;
  /** Which of the pieces to weigh one by one, from 1. */
  readonly piece?: number;
}

const order: readonly TallyItem[] = ['good', 'rejected', 'samples', 'left over', 'crumbs'];

const isAnswered = (item: TallyItem, entries: readonly TallyEntry[]): boolean =>
  entries.some(entry => entry.item === item && (item !== 'rejected' || entry.value === '0'));

/** The next item to enter. Rejects are asked by reason until none is left. */
export const tallyDue = (step: TallyStep, entries: readonly TallyEntry[]): TallyDue => {
  const item = order.find(each => !isAnswered(each, entries));
  if (item !== undefined) return { item };
  return { item: 'weight', piece: Math.min(weighed(entries) + 1, Math.max(step.weigh, 1)) };
};

const weighed = (entries: readonly TallyEntry[]): number =>
  entries.filter(entry => entry.item === 'weight').length;

export const isTallyDone = (step: TallyStep, entries: readonly TallyEntry[]): boolean =>
  order.every(item => isAnswered(item, entries)) && weighed(entries) >= step.weigh;
