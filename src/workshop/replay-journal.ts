import type { Done } from '../core/dialogue/bench.ts';
import { decodeEvent } from '../core/run/event-codec.ts';
import { evolve } from '../core/run/evolve.ts';
import { type Run, unbegun } from '../core/run/state.ts';
import { explainDamage, readUndamaged } from './chained-file.ts';
import type { ChainedLine } from './chained-line.ts';
import { filesOf, type Workshop } from './workshop.ts';

const follow = (run: Run, { n, body }: ChainedLine): Done<Run> => {
  const decoded = decodeEvent(body);
  if (!decoded.ok) return decoded;
  if (decoded.value.seq !== n) return { ok: false, why: 'it has the wrong number' };
  try {
    return { ok: true, value: evolve(run, decoded.value) };
  } catch (error) {
    if (!(error instanceof RangeError)) throw error;
    return { ok: false, why: 'it cannot follow on the lines before it' };
  }
};

/** The state of a batch from the lines of its journal; a line that does not fit is refused by its number. */
export const replayJournal = (
  workshop: Workshop,
  batch: string,
  lines: readonly ChainedLine[],
): Done<Run> => {
  const { journal } = filesOf(workshop, batch);
  let run: Run = unbegun;
  for (const line of lines) {
    const next = follow(run, line);
    if (!next.ok) return { ok: false, why: explainDamage(journal, line.n, next.why) };
    run = next.value;
  }
  if (run.phase !== 'unbegun' && (run.batch !== batch || run.practice !== workshop.practice)) {
    return { ok: false, why: explainDamage(journal, 1, `it belongs to batch ${run.batch}`) };
  }
  return { ok: true, value: run };
};

/** What a journal says, read without holding or mending it. */
export interface JournalRead {
  readonly run: Run;
  readonly lines: readonly ChainedLine[];
  /** Hash of its last line. */
  readonly head: string;
}

/** Reads the journal of a batch as it stands; another process may be writing to it. */
export const readJournal = (workshop: Workshop, batch: string): Done<JournalRead> => {
  const { journal } = filesOf(workshop, batch);
  const scan = readUndamaged(workshop.disk, journal, `The journal of ${batch}`);
  if (!scan.ok) return scan;
  const { lines, head } = scan.value;
  const run = replayJournal(workshop, batch, lines);
  return run.ok ? { ok: true, value: { run: run.value, lines, head } } : run;
};
