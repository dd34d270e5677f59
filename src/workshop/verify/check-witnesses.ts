/** Each witness in the record: their key on the register signed for the journal as it stood right before. */
import type { BatchRecord, JournalLine } from '../../core/result/record.ts';
import type { Books } from './books.ts';
import { type Claim, fails, holds } from './claim.ts';
import { firstHash } from './formats.ts';
import { isRawSignedBy } from './signature.ts';

const textOrNone = (value: unknown): string => (typeof value === 'string' ? value : '');

const checkOne = (
  batch: string,
  event: JournalLine,
  before: JournalLine | undefined,
  books: Books,
): Claim => {
  const witness = textOrNone(event['witness']);
  const kid = textOrNone(event['kid']);
  const step = String(event['step']);
  const key = books.keys.find(each => each.kid === kid);
  if (key === undefined || key.name !== witness) {
    return fails(
      'witness',
      'unknown-key',
      `The witness of step ${step} has no such key on the register.`,
    );
  }
  const head = before === undefined ? firstHash : textOrNone(before['hash']);
  const signed = ['tarebook witness', batch, step, witness, head].join('\n');
  return isRawSignedBy(textOrNone(event['signature']), Buffer.from(signed), key.key)
    ? holds('witness', `${key.name} witnessed step ${step} with a key of their own.`)
    : fails(
        'witness',
        'wrong-signature',
        `What the witness of step ${step} signed is not this batch at this point.`,
      );
};

export const checkWitnesses = (record: BatchRecord, books: Books): readonly Claim[] =>
  record.events.flatMap((event, index) =>
    event['type'] === 'witnessed'
      ? [checkOne(record.batch, event, record.events[index - 1], books)]
      : [],
  );
