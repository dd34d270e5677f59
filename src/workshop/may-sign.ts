/** Whether a signature may be added to those that the ledger has of a batch. */
import type { Meaning } from '../core/dialogue/bench.ts';
import { peopleOf } from '../core/result/build-result.ts';
import type { ClosedRun } from '../core/run/state.ts';
import { explainDeviation } from './explain-deviation.ts';
import { addendumLines, type LedgerLine, signedLines } from './ledger.ts';

// Whoever released may reject later, and release once more.
const overturns: Partial<Record<Meaning, Meaning>> = {
  'released by': 'rejected by',
  'rejected by': 'released by',
};

const hasSigned = (
  lines: readonly LedgerLine[],
  batch: string,
  name: string,
  meaning: Meaning,
): boolean => {
  const signed = signedLines(lines, batch);
  const since = signed.findLastIndex(line => line.meaning === overturns[meaning]) + 1;
  return signed.slice(since).some(line => line.signer === name && line.meaning === meaning);
};

const whyNotReleased = (
  lines: readonly LedgerLine[],
  { batch, outcome, deviations }: ClosedRun,
): string | undefined => {
  if (outcome === 'rejected') return `${batch} was closed as rejected. It cannot be released.`;
  const assessed = new Set(addendumLines(lines, batch).map(({ refers }) => refers));
  const open = deviations.flatMap((each, index) =>
    assessed.has(index + 1) ? [] : explainDeviation(each, index + 1),
  );
  return open.length === 0
    ? undefined
    : `${batch} cannot be released before each deviation is assessed. Still open: ${open.join(', ')}. ` +
        `Assess each: tarebook addend ${batch} --kind assessment --deviation NUMBER --text "…".`;
};

/** Who made it cannot have witnessed it, nor the other way round. */
const whyNotTheirs = (
  run: ClosedRun,
  { name, meaning }: { readonly name: string; readonly meaning: Meaning },
): string | undefined => {
  const people = peopleOf(run);
  if (meaning === 'made by' && !people.includes(name)) {
    return `${run.batch} was made by ${people.join(', ')}, not by ${name}.`;
  }
  return meaning === 'witnessed by' && people.includes(name)
    ? `${name} made ${run.batch}: its witness is another person.`
    : undefined;
};

/** Why this must not be signed, in a sentence; undefined where it may. */
export const whyNotSigned = (
  lines: readonly LedgerLine[],
  run: ClosedRun,
  { name, meaning }: { readonly name: string; readonly meaning: Meaning },
): string | undefined => {
  if (hasSigned(lines, run.batch, name, meaning)) {
    return `${name} has signed ${run.batch} as “${meaning}” already.`;
  }
  return meaning === 'released by'
    ? whyNotReleased(lines, run)
    : whyNotTheirs(run, { name, meaning });
};
