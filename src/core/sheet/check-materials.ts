import { nearest } from './nearest.ts';
import { quote } from './quote.ts';
import type { DraftLimit } from './read-limit.ts';
import { faultAt, type Placed, type Report } from './reader.ts';
import type { DraftSheet } from './sheet-reader.ts';
import { allSteps, isThere, isWhole, limitsOf } from './walk.ts';

const namedIn = (limit: DraftLimit): readonly (Placed<string> | undefined)[] =>
  limit.kind === 'share' ? [limit.of] : (limit.ratio ?? []);

const usedBy = (draft: DraftSheet): readonly Placed<string>[] =>
  allSteps(draft)
    .map(({ step }) =>
      step.kind === 'add' ? step.add : step.kind === 'adjust' ? step.adjust : undefined,
    )
    .filter(isThere);

/** Every material that is used is declared, and every one that is declared is used. */
export const checkMaterials = (draft: DraftSheet, report: Report): void => {
  const { materials } = draft;
  if (materials === undefined) return;
  const used = usedBy(draft);
  const limited = limitsOf(draft).flatMap(namedIn).filter(isThere);
  // What a misspelt name was meant for is used, too.
  const names = new Set(used.map(each => each.value));
  for (const { value, place } of [...used, ...limited]) {
    if (materials.has(value)) continue;
    const near = nearest(value, materials.keys());
    if (near !== undefined) names.add(near);
    const mend =
      near === undefined
        ? `Add a line for ${quote(value)} under materials.`
        : `Write ${quote(near)}, or add a line for ${quote(value)} under materials.`;
    const message = `The material ${quote(value)} is not under materials.`;
    faultAt(place, report)('undeclared-material', message, mend);
  }
  if (!isWhole(draft)) return;
  for (const [key, { place }] of materials) {
    if (names.has(key)) continue;
    const mend = 'Delete it here, or add it in a step.';
    faultAt(place, report)('unused-material', `${quote(key)} is never used.`, mend);
  }
};
