/** Verifies a workshop folder, or a practice room: its books, and every batch in it. */
import { readdirSync } from 'node:fs';
import { join } from 'node:path';
import { type Books, readBooks } from './books.ts';
import { type Claim, fails, holds, type Judgement, judgeClaims, type Verdict } from './claim.ts';
import { fileNames } from './formats.ts';
import { type BatchReport, verifyBatchIn } from './verify-batch.ts';

export interface WorkshopReport extends Judgement {
  /** On the ledger and the register as a whole. */
  readonly claims: readonly Claim[];
  readonly batches: readonly BatchReport[];
}

const foldersIn = (path: string): readonly string[] | undefined => {
  try {
    return readdirSync(path, { withFileTypes: true })
      .filter(entry => entry.isDirectory())
      .map(entry => entry.name)
      .sort();
  } catch {
    return undefined;
  }
};

const checkAllThere = ({ ledger }: Books, folders: readonly string[]): readonly Claim[] => {
  const there = new Set(folders);
  const lost = ledger.filter(line => !there.has(line.batch));
  return lost.length === 0
    ? [holds('closed', 'Every batch in the ledger has its folder.')]
    : lost.map(line =>
        fails('closed', 'missing', `The batch in line ${line.seq} of the ledger is gone.`),
      );
};

const rank: readonly Verdict[] = ['does not hold', 'unreadable', 'unfinished', 'good'];

const worstOf = (all: readonly Judgement[]): Judgement => {
  const [worst] = all.toSorted((a, b) => rank.indexOf(a.verdict) - rank.indexOf(b.verdict));
  return worst ?? judgeClaims([]);
};

/** Verifies everything in a workshop. Batches that are still open are listed and change no verdict. */
export const verifyWorkshop = (folder: string): WorkshopReport => {
  const folders = foldersIn(join(folder, fileNames.batches));
  const books = readBooks(folder);
  if (folders === undefined && books.ledger.length === 0) {
    const claims = [fails('files', 'not-ours', 'There are no batches in the folder.')];
    return { ...judgeClaims(claims), claims, batches: [] };
  }
  const batches = (folders ?? []).map(name =>
    verifyBatchIn(books, join(folder, fileNames.batches, name)),
  );
  const claims = [...books.claims, ...checkAllThere(books, folders ?? [])];
  const { verdict, status } = worstOf([
    judgeClaims(claims),
    ...batches.filter(each => !isOpen(each)),
  ]);
  return { verdict, status, claims, batches };
};

const isOpen = ({ claims }: BatchReport): boolean =>
  claims.length === 1 && claims[0]?.code === 'still-open';
