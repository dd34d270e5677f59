import type { Sheet } from '../../core/sheet/sheet.ts';

/** The cautions of a sheet, then the hazards of its materials. */
export const cautionsOf = ({ cautions, materials }: Sheet): readonly string[] => [
  ...cautions,
  ...[...materials.values()].flatMap(({ name, hazard }) =>
    hazard === undefined ? [] : [`${name}: ${hazard}`],
  ),
];
