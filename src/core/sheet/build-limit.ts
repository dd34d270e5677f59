import { defined } from './present.ts';
import type { DraftLimit } from './read-limit.ts';
import type { Limit } from './sheet.ts';

/** A limit from its draft; undefined where a part of it could not be read. */
export const buildLimit = (draft: DraftLimit): Limit | undefined => {
  const { least, most, place } = draft;
  const bounds = { ...defined({ least, most }), place };
  if (draft.kind === 'ratio') {
    const [first, second] = draft.ratio ?? [];
    if (first === undefined || second === undefined) return undefined;
    return { kind: 'ratio', material: first.value, to: second.value, ...bounds };
  }
  if (draft.of === undefined || draft.in === undefined) return undefined;
  const share = { kind: 'share', material: draft.of.value, ...bounds } as const;
  return draft.in.value === 'batch' ? share : { ...share, phase: draft.in.value };
};
