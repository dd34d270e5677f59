/** The events in a record: a chain of their own, and the same bytes as the journal beside it. */
import type { BatchRecord } from '../../core/result/record.ts';
import { readChain } from './chain.ts';
import { type Claim, fails, holds } from './claim.ts';

const checkChain = (bytes: Buffer, { journal }: BatchRecord): Claim => {
  const chain = readChain(bytes);
  if (!chain.ok) {
    return fails('events', chain.code, `Event ${chain.line} of the record ${chain.text}.`);
  }
  const last = chain.lines.at(-1);
  if (last?.type !== 'closed')
    return fails('events', 'not-closed', 'The record has no closing event.');
  return journal.lines === chain.lines.length && journal.hash === last.hash
    ? holds('events', `All ${journal.lines} events follow from each other.`)
    : fails('events', 'wrong-head', 'The record names another last event than it holds.');
};

const checkJournal = (bytes: Buffer, journal: Buffer | undefined): Claim => {
  if (journal === undefined) {
    return fails('journal', 'missing', 'The journal is not there to compare the events with.');
  }
  return journal.equals(bytes)
    ? holds('journal', 'The journal holds the same events, byte for byte.')
    : fails('journal', 'differs', 'The journal and the events in the record are not the same.');
};

export const checkEvents = (
  record: BatchRecord,
  journal: Buffer | undefined,
): readonly [Claim, Claim] => {
  const bytes = Buffer.from(record.events.map(event => `${JSON.stringify(event)}\n`).join(''));
  return [checkChain(bytes, record), checkJournal(bytes, journal)];
};
