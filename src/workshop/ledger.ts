import * as z from 'zod/mini';
import { type Done, meanings } from '../core/dialogue/bench.ts';
import { addendumKinds } from '../core/result/addendum.ts';
import { type Book, base64urlOf32, bookLine, readBook, sha256Text, shortText } from './book.ts';
import type { Workshop } from './workshop.ts';

const ledgerLine = z.discriminatedUnion('type', [
  /** SHA-256 of record.json, and the journal's last hash. */
  bookLine('closed', { batch: shortText, record: sha256Text, journal: sha256Text }),
  /** SHA-256 of the signature as it stands: protected header, a full stop, signature. */
  bookLine('signed', {
    batch: shortText,
    signature: sha256Text,
    signer: shortText,
    kid: base64urlOf32,
    meaning: z.enum(meanings),
  }),
  /** The addendum's number in its batch, what it assesses, SHA-256 of its file, and of its signature as above. */
  bookLine('addendum', {
    batch: shortText,
    n: z.int().check(z.positive()),
    kind: z.enum(addendumKinds),
    refers: z.optional(z.int().check(z.positive())),
    addendum: sha256Text,
    signature: sha256Text,
    signer: shortText,
    kid: base64urlOf32,
  }),
]);

export type LedgerLine = Readonly<z.infer<typeof ledgerLine>>;

export const ledgerBook = ({ ledger }: Workshop): Book<LedgerLine> => ({
  path: ledger,
  name: 'The ledger',
  line: ledgerLine,
});

export const readLedger = (workshop: Workshop): Done<readonly LedgerLine[]> =>
  readBook(workshop, ledgerBook(workshop));

/** The line by which a batch was closed; undefined while it is not. */
export const closedLine = (lines: readonly LedgerLine[], batch: string) =>
  lines.find(
    (line): line is Extract<LedgerLine, { readonly type: 'closed' }> =>
      line.type === 'closed' && line.batch === batch,
  );

/** The lines of a batch's signatures, in their order. */
export const signedLines = (lines: readonly LedgerLine[], batch: string) =>
  lines.filter(
    (line): line is Extract<LedgerLine, { readonly type: 'signed' }> =>
      line.type === 'signed' && line.batch === batch,
  );

/** The lines of what was added to a batch, in their order. */
export const addendumLines = (lines: readonly LedgerLine[], batch: string) =>
  lines.filter(
    (line): line is Extract<LedgerLine, { readonly type: 'addendum' }> =>
      line.type === 'addendum' && line.batch === batch,
  );
