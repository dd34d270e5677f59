import { mendName } from './nearest.ts';
import { quote, quoteAll } from './quote.ts';
import type { DraftPhase } from './read-phase.ts';
import { faultAt, type Placed, type Report } from './reader.ts';
import type { DraftSheet } from './sheet-reader.ts';
import { isThere, limitsOf, phasesOf } from './walk.ts';

const namesOf = (draft: DraftSheet): readonly string[] =>
  phasesOf(draft).flatMap(phase => phase.phase?.value ?? []);

const afterOf = (phase: DraftPhase): readonly Placed<string>[] =>
  (phase.after ?? []).filter(isThere);

const checkKnown = (names: readonly string[], named: Placed<string>, report: Report): void => {
  if (names.includes(named.value)) return;
  const mend = mendName(named.value, names, `Write one of ${quoteAll(names)}.`);
  const message = `The sheet has no phase ${quote(named.value)}.`;
  faultAt(named.place, report)('undeclared-phase', message, mend);
};

const ringFrom = (start: string, after: ReadonlyMap<string, readonly string[]>): boolean => {
  const seen = new Set<string>();
  const open = [...(after.get(start) ?? [])];
  for (let name = open.pop(); name !== undefined; name = open.pop()) {
    if (name === start) return true;
    if (!seen.has(name)) open.push(...(after.get(name) ?? []));
    seen.add(name);
  }
  return false;
};

const checkRings = (draft: DraftSheet, report: Report): void => {
  const after = new Map(
    phasesOf(draft).map(phase => [
      phase.phase?.value ?? '',
      afterOf(phase).map(each => each.value),
    ]),
  );
  const waiting = phasesOf(draft).filter(phase => ringFrom(phase.phase?.value ?? '', after));
  const [first] = waiting;
  if (first === undefined) return;
  const all = waiting.map(phase => phase.phase?.value ?? '');
  const message = `Each of ${quoteAll(all)} waits for another, so none can begin.`;
  const mend = 'Delete the “after” of the phase that comes first.';
  faultAt(first.place, report)('phases-in-a-ring', message, mend);
};

/** Phases that are waited for, or bounded by a limit, exist; none waits for itself. */
export const checkPhases = (draft: DraftSheet, report: Report): void => {
  if (draft.phases?.every(phase => phase?.phase !== undefined) !== true) return;
  const names = namesOf(draft);
  for (const phase of phasesOf(draft)) {
    for (const named of afterOf(phase)) checkKnown(names, named, report);
  }
  for (const limit of limitsOf(draft)) {
    if (limit.kind !== 'share' || limit.in === undefined) continue;
    checkKnown([...names, 'batch'], limit.in, report);
  }
  checkRings(draft, report);
};
