/** The workshop's own books, ledger and register: chained lines that begin with seq, at, by and type. */
import { basename } from 'node:path';
import * as z from 'zod/mini';
import type { Done } from '../core/dialogue/bench.ts';
import { formatInstant, readInstant } from '../core/time/instant.ts';
import { explainDamage, openChained, readUndamaged } from './chained-file.ts';
import type { ChainedLine } from './chained-line.ts';
import { withLock } from './lock.ts';
import { lockWish, type Workshop } from './workshop.ts';

/** A name or a short text: bounded, and without what a terminal may obey. */
export const shortText = z.string().check(
  z.minLength(1),
  z.maxLength(200),
  z.refine(text => !/[\p{Cc}\p{Cs}\p{Zl}\p{Zp}\u202A-\u202E\u2066-\u2069]/u.test(text)),
);

export const sha256Text = z.string().check(z.regex(/^[0-9a-f]{64}$/));

/** 32 bytes: a key of Ed25519, or the thumbprint that names one. */
export const base64urlOf32 = z.string().check(z.regex(/^[\w-]{43}$/));

/** A line of a book; its members after `type` are the kind's own. */
export const bookLine = <T extends string, S extends z.core.$ZodLooseShape>(type: T, shape: S) =>
  z.strictObject({
    seq: z.number(),
    at: z.string().check(z.refine(text => readInstant(text) !== undefined)),
    by: shortText,
    type: z.literal(type),
    ...shape,
  });

type Numbered = Readonly<Record<string, unknown>> & { readonly seq: number };

/** A book: its file, its name for people, and the lines it may hold. */
export interface Book<T extends Numbered> {
  readonly path: string;
  readonly name: string;
  readonly line: z.ZodMiniType<T>;
}

/** A new line without what the book itself adds. */
export type Entry = Readonly<Record<string, unknown>> & { readonly type: string };

const readLines = <T extends Numbered>(
  { path, line }: Book<T>,
  lines: readonly ChainedLine[],
): Done<readonly T[]> => {
  const read: T[] = [];
  for (const { n, body } of lines) {
    const parsed = line.safeParse(body);
    if (!parsed.success || parsed.data.seq !== n) {
      const why = parsed.success
        ? 'it has the wrong number'
        : 'it holds something that this program does not know';
      return { ok: false, why: explainDamage(path, n, why) };
    }
    read.push(parsed.data);
  }
  return { ok: true, value: read };
};

/** Reads a book as it stands. A torn last line is not counted; the next entry mends it. */
export const readBook = <T extends Numbered>(
  { disk }: Workshop,
  book: Book<T>,
): Done<readonly T[]> => {
  const scan = readUndamaged(disk, book.path, basename(book.path));
  return scan.ok ? readLines(book, scan.value.lines) : scan;
};

/** What an entry may depend on: the lines so far and the hash of the last. */
export interface BookState<T> {
  readonly lines: readonly T[];
  readonly head: string;
}

/**
 * Makes one entry under the book's lock. `make` sees the book as it is then, and answers the entry,
 * undefined where none is needed any more, or why it must not be made.
 */
export const enter = <T extends Numbered>(
  workshop: Workshop,
  book: Book<T>,
  by: string,
  make: (state: BookState<T>) => Done<Entry | undefined>,
): Done =>
  withLock(workshop.disk, `${book.path}.lock`, lockWish(workshop, book.name), () => {
    const opened = openChained(workshop.disk, book.path);
    if (!opened.ok) return opened;
    const { file, notice } = opened.value;
    if (notice !== undefined) workshop.tell(notice);
    const lines = readLines(book, file.lines());
    if (!lines.ok) return lines;
    const entry = make({ lines: lines.value, head: file.head() });
    if (!entry.ok) return entry;
    if (entry.value === undefined) return { ok: true, value: true };
    const seq = file.lines().length + 1;
    const parsed = book.line.safeParse({
      seq,
      at: formatInstant(workshop.now()),
      by,
      ...entry.value,
    });
    if (!parsed.success) {
      return {
        ok: false,
        why: `${book.name} cannot take this: a name or a number in it is not readable text.`,
      };
    }
    return file.append([parsed.data]);
  });
