/** Each witness in the record: their key on the register signed for the journal as it stood right before. */
import type { BatchRecord } from '../../core/result/record.ts';
import type { Books } from './books.ts';
import { type Claim, fails, holds } from './claim.ts';
import { firstHash } from './formats.ts';
import { isRawSignedBy } from './signature.ts';

const textOf = (value: unknown): string => (typeof value === 'string' ? value : '');

const checkOne = (record: BatchRecord, index: number, books: Books): Claim => {
  const event = record.events[index] ?? {};
  const [witness, kid, signature] = [event['witness'], event['kid'], event['signature']].map(
    textOf,
  );
  const step = String(event['step']);
  const key = books.keys.find(each => each.kid === kid);
  if (key === undefined || key.name !== witness) {
    return fails(
      'witness',
      'unknown-key',
      `The witness of step ${step} has no such key on the register.`,
    );
  }
  const before = index === 0 ? firstHash : textOf(record.events[index - 1]?.['hash']);
  const signed = ['tarebook witness', record.batch, step, witness, before].join('\n');
  return isRawSignedBy(signature ?? '', Buffer.from(signed), key.key)
    ? holds('witness', `${key.name} witnessed step ${step} with a key of their own.`)
    : fails(
        'witness',
        'wrong-signature',
        `What the witness of step ${step} signed is not this batch at this point.`,
      );
};

export const checkWitnesses = (record: BatchRecord, books: Books): readonly Claim[] =>
  record.events.flatMap((event, index) =>
    event['type'] === 'witnessed' ? [checkOne(record, index, books)] : [],
  );
