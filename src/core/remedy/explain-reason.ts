import { showGrams } from '../quantity/show.ts';
import { explainLimit } from '../run/explain-limit.ts';
import type { Sheet } from '../sheet/sheet.ts';
import type { Reason } from './remedy.ts';

/** Why a remedy is none, in one sentence; masses in grams, to a tenth. */
export const explainReason = (sheet: Sheet, reason: Reason): string => {
  const nameOf = (material: string): string => sheet.materials.get(material)?.name ?? material;
  const lineOf = ({ n, material }: { readonly n: number; readonly material: string }): string =>
    `line ${n}, ${nameOf(material)}`;
  switch (reason.code) {
    case 'nothing-over':
      return 'No line is over its window.';
    case 'in-window':
      return 'All that was poured is in its window.';
    case 'added-since':
      return `Since ${lineOf(reason)}, something else went into the vessel or was done in it.`;
    case 'vessel-closed':
      return `The vessel of ${lineOf(reason)}, was emptied; it cannot be topped up any more.`;
    case 'pieces-fixed':
      return `${reason.phase} is closed and has fixed the number of pieces.`;
    case 'no-room':
      return `There is no room for a top-up of ${lineOf(reason)}, that can be poured.`;
    case 'no-size':
      return 'No larger batch brings every line into its window.';
    case 'limit':
      return `It would break a limit: ${explainLimit(sheet, reason.finding)}.`;
    case 'vessel-full':
      return `${reason.vessel} would have ${showGrams(reason.mass, 1)} in it and holds ${showGrams(reason.holds, 1)}.`;
    case 'stock-short':
      return `It takes ${showGrams(reason.needs, 1)} more of ${nameOf(reason.material)}, and ${showGrams(reason.left, 1)} are left.`;
    case 'scale-unfit':
      return `${showGrams(reason.mass, 1)} of ${lineOf(reason)}, cannot be weighed between the least load of its scale and what it carries.`;
  }
};
