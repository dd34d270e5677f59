import { createHash } from 'node:crypto';
import type { Done } from '../core/dialogue/bench.ts';
import { buildRecord } from '../core/result/build-record.ts';
import type { ClosedRun } from '../core/run/state.ts';
import { asJournalLine, type ChainedLine } from './chained-line.ts';
import { type Disk, readIfThere } from './disk.ts';
import { attempt } from './disk-error.ts';
import { fileText } from './file-text.ts';
import { writeDurably } from './write-durably.ts';

/** The bytes of record.json, which are what is signed. */
export const recordBytes = (run: ClosedRun, lines: readonly ChainedLine[]): Buffer =>
  Buffer.from(fileText(buildRecord(run, lines.map(asJournalLine))));

export const sha256 = (bytes: Uint8Array): string =>
  createHash('sha256').update(bytes).digest('hex');

/**
 * Sees to it that record.json stands, and answers its bytes. Before the ledger knows the batch, it is
 * written anew wherever it differs; afterwards only the bytes that the ledger names will do, and others
 * are left as they are, for whoever wants to know what happened to them.
 */
export const keepRecord = (
  disk: Disk,
  path: string,
  built: Buffer,
  inLedger: string | undefined,
): Done<Buffer> => {
  const read = attempt('The record could not be read', () => readIfThere(disk, path));
  if (!read.ok) return read;
  const wanted = inLedger ?? sha256(built);
  if (read.value !== undefined && sha256(read.value) === wanted) {
    return { ok: true, value: read.value };
  }
  if (sha256(built) !== wanted || (inLedger !== undefined && read.value !== undefined)) {
    return {
      ok: false,
      why: `${path} is not the record that the ledger names. Bring it back from a backup.`,
    };
  }
  return attempt('The record could not be written', () => {
    writeDurably(disk, path, built);
    return built;
  });
};
