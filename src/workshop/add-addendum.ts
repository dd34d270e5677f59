import type { Done } from '../core/dialogue/bench.ts';
import { type Addendum, type AddendumKind, addendumType } from '../core/result/addendum.ts';
import { readText } from '../core/run/decision.ts';
import type { Deviation } from '../core/run/state.ts';
import { formatInstant } from '../core/time/instant.ts';
import { enter } from './book.ts';
import { ensureFolder } from './disk.ts';
import { attempt } from './disk-error.ts';
import { explainDeviation } from './explain-deviation.ts';
import { type ClosedBatch, finishClosing } from './finish-closing.ts';
import { addendumLines, ledgerBook } from './ledger.ts';
import { addendumBytes, addendumEntry, readLeft } from './record-addendum.ts';
import { sha256 } from './record-file.ts';
import { formatSignatures, type SignatureEntry, signAddendum } from './sign.ts';
import { type SignerKey, unlock } from './signer-key.ts';
import { readAddendum } from './verify/read-addendum.ts';
import { addendumFiles, filesOf, type Workshop } from './workshop.ts';
import { writeDurably } from './write-durably.ts';

export interface AddendumWish {
  readonly batch: string;
  readonly name: string;
  readonly passphrase: string;
  readonly kind: AddendumKind;
  readonly text: string;
  /** The deviation that is assessed, from 1; only and always with an assessment. */
  readonly deviation?: number;
}

const explainAll = (deviations: readonly Deviation[]): string =>
  deviations.length === 0
    ? 'It has none.'
    : `It has ${deviations.map((each, index) => explainDeviation(each, index + 1)).join(', ')}.`;

const whyNot = (
  { batch, kind, text, deviation }: AddendumWish,
  deviations: readonly Deviation[],
): string | undefined => {
  if (readText(text) === undefined) {
    return 'The text is empty, too long, or holds something that cannot be read. One line of at most 500 characters.';
  }
  if (kind !== 'assessment') {
    return deviation === undefined ? undefined : 'Only an assessment is of a deviation.';
  }
  const isThere = deviation !== undefined && deviations[deviation - 1] !== undefined;
  return isThere
    ? undefined
    : `Say which deviation of ${batch} is assessed. ${explainAll(deviations)}`;
};

const isSame = (addendum: Addendum, { name, kind, text, deviation }: AddendumWish): boolean =>
  addendum.by === name &&
  addendum.kind === kind &&
  addendum.text === readText(text) &&
  addendum.refers === deviation;

const tellOfDraft = (workshop: Workshop, draft: Addendum | undefined, wish: AddendumWish): void => {
  if (draft === undefined || isSame(draft, wish)) return;
  workshop.tell(
    `An addendum of ${draft.by} was interrupted before it was signed, and makes way: “${draft.text}”.`,
  );
};

const writeBoth = (
  workshop: Workshop,
  { batch, n }: { readonly batch: string; readonly n: number },
  bytes: Buffer,
  entry: SignatureEntry,
): Done => {
  const files = filesOf(workshop, batch);
  const { addendum, signature } = addendumFiles(files, n);
  return attempt('The addendum could not be written', () => {
    ensureFolder(workshop.disk, files.addenda);
    writeDurably(workshop.disk, addendum, bytes);
    writeDurably(workshop.disk, signature, Buffer.from(formatSignatures([entry])));
    return true;
  });
};

const write = (
  workshop: Workshop,
  record: Buffer,
  wish: AddendumWish,
  { kid, key }: SignerKey,
): Done =>
  enter(workshop, ledgerBook(workshop), wish.name, ({ lines, head }) => {
    const { batch, name, kind, text, deviation } = wish;
    const n = addendumLines(lines, batch).length + 1;
    const left = readLeft(workshop, batch, n);
    if (!left.ok) return left;
    if (left.value.signature !== undefined) {
      return { ok: false, why: 'Another addendum was interrupted just now. Do it again.' };
    }
    tellOfDraft(workshop, readAddendum(left.value.addendum?.toString('utf8') ?? ''), wish);
    const at = workshop.now();
    // The order of the keys is that of the file.
    const addendum: Addendum = {
      type: addendumType,
      batch,
      n,
      kind,
      text: readText(text) ?? '',
      ...(deviation === undefined ? {} : { refers: deviation }),
      at: formatInstant(at),
      by: name,
      record: sha256(record),
    };
    const bytes = addendumBytes(addendum);
    const ledger = { seq: lines.length, prev: head };
    const entry = signAddendum(bytes, { kid, signer: name, at, ledger }, key);
    const written = writeBoth(workshop, addendum, bytes, entry);
    return written.ok
      ? { ok: true, value: addendumEntry({ addendum, bytes, entry, kid }) }
      : written;
  });

/** Whether an interrupted addition of the very same was finished just now. */
const isRecovered = ({ recoveredAddendum }: ClosedBatch, wish: AddendumWish): boolean =>
  recoveredAddendum !== undefined && isSame(recoveredAddendum, wish);

/**
 * Finishes the closing of a batch and adds to it: the addendum, its signature, its line in the ledger.
 * The record stays as it is. An addition that was interrupted is simply done again.
 */
export const addAddendum = (workshop: Workshop, keysDir: string, wish: AddendumWish): Done => {
  const closed = finishClosing(workshop, wish.batch);
  if (!closed.ok) return closed;
  const { run, record } = closed.value;
  const why = whyNot(wish, run.deviations);
  if (why !== undefined) return { ok: false, why };
  if (isRecovered(closed.value, wish)) return { ok: true, value: true };
  const unlocked = unlock(workshop, keysDir, wish);
  return unlocked.ok ? write(workshop, record, wish, unlocked.value) : unlocked;
};
