import { type DraftOf, kinded, optional, required } from './keys.ts';
import { plainNumber } from './read-number.ts';
import { percentage } from './read-quantity.ts';
import { faultAt, listOf, placed, type Reader, words } from './reader.ts';

const bound = percentage('3 %', { isZeroPossible: true, isAllPossible: true });

const pair = listOf(placed(words('material')));
const twoMaterials: typeof pair = {
  ...pair,
  example: '[bicarbonate, citric acid]',
  schema: { ...pair.schema, minItems: 2, maxItems: 2 },
  read: (node, report) => {
    const items = pair.read(node, report);
    if (items === undefined || items.length === 2) return items;
    const mend = 'Write two materials, as in ratio: [bicarbonate, citric acid]';
    return faultAt(node.place, report)('wrong-shape', 'A ratio is of two materials.', mend);
  },
};

const shareLimit = kinded('share', {
  of: required(placed(words('cedar blend')), 'The material whose share is bounded.'),
  in: required(placed(words('batch')), 'batch, or the name of a phase.'),
  least: optional(bound, 'The least share, as weighed in.'),
  most: optional(bound, 'The greatest share, as weighed in.'),
});

const ratioLimit = kinded('ratio', {
  ratio: required(twoMaterials, 'How many times the second goes into the first.'),
  least: optional(plainNumber('1.8'), 'The least ratio.'),
  most: optional(plainNumber('2.2'), 'The greatest ratio.'),
});

export type DraftLimit = DraftOf<typeof shareLimit> | DraftOf<typeof ratioLimit>;

/** A bound on a share or on a ratio. */
export const limit: Reader<DraftLimit> = {
  example: shareLimit.example,
  schema: { anyOf: [shareLimit.schema, ratioLimit.schema] },
  read: (node, report) => {
    const isRatio = node.kind === 'map' && node.entries.some(entry => entry.key === 'ratio');
    return (isRatio ? ratioLimit : shareLimit).read(node, report);
  },
};
