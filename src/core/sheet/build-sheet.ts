import { one, type Ratio, zero } from '../quantity/quantity.ts';
import { buildLimit } from './build-limit.ts';
import { buildStep } from './build-step.ts';
import { defined, present } from './present.ts';
import type { DraftMaterial } from './read-material.ts';
import type { DraftPhase } from './read-phase.ts';
import { type Amounts, measuresOf } from './resolve-amounts.ts';
import type { Makes, Material, Phase, Place, Sheet, Vessel } from './sheet.ts';
import type { DraftSheet } from './sheet-reader.ts';
import { additionsOf } from './walk.ts';

const buildMakes = (draft: DraftSheet['makes']): Makes => {
  const { piece, count, fill, loss, place } = present(draft);
  return {
    piece: present(piece),
    count: present(count),
    fill: present(fill),
    loss: loss ?? zero,
    place,
  };
};

const buildMaterial = (key: string, draft: DraftMaterial, place: Place): Material => {
  const { inci, density, drop, each, hazard } = draft;
  const allergens = [...(draft.allergens ?? [])];
  return {
    key,
    name: present(draft.name),
    ...defined({ inci, density, drop, each, hazard }),
    allergens: new Map(allergens.map(([name, { value }]) => [name, present(value)])),
    hasLots: draft.lot === undefined,
    place,
  };
};

const buildVessel = (draft: DraftPhase['vessel']): Vessel => {
  const { name, tare, holds } = present(draft);
  return { name: present(name).value, ...defined({ tare, holds }) };
};

const buildRework = (draft: NonNullable<DraftPhase['rework']>) => ({
  of: present(draft.of),
  most: present(draft.most),
});

// One phase alone is the whole batch, and need not say so.
const shareOf = (draft: DraftPhase, basis: Sheet['basis']): Ratio | undefined =>
  draft.share?.value ??
  (basis === 'percentages' && additionsOf(draft).length > 0 ? one : undefined);

const buildPhase = (draft: DraftPhase, basis: Sheet['basis'], amounts: Amounts): Phase => ({
  name: present(draft.phase).value,
  ...defined({ share: shareOf(draft, basis) }),
  vessel: buildVessel(draft.vessel),
  after: (draft.after ?? []).map(each => present(each).value),
  portions: draft.portions ?? 1,
  ...defined({ rework: draft.rework && buildRework(draft.rework) }),
  steps: present(draft.steps).map(step => buildStep(present(step), amounts)),
  place: draft.place,
});

/** The sheet, from a draft in which no error was found. */
export const buildSheet = (draft: DraftSheet, basis: Sheet['basis'], amounts: Amounts): Sheet => {
  const { tolerance, contact } = draft;
  const checked = draft['scale check'];
  const scaleCheck = checked && { ...checked.value, place: checked.place };
  const materials = [...present(draft.materials)];
  return {
    name: present(draft.sheet),
    code: present(draft.code),
    revision: present(draft.revision),
    makes: buildMakes(draft.makes),
    ...defined({ tolerance, contact, scaleCheck, useWithin: draft['use within'] }),
    measures: measuresOf(draft),
    cautions: (draft.cautions ?? []).map(present),
    materials: new Map(
      materials.map(([key, { value, place }]) => [key, buildMaterial(key, present(value), place)]),
    ),
    limits: (draft.limits ?? []).map(limit => present(buildLimit(present(limit)))),
    phases: present(draft.phases).map(phase => buildPhase(present(phase), basis, amounts)),
    finish: (draft.finish ?? []).map(step => buildStep(present(step), amounts)),
    basis,
  };
};
