/** How sure the masses of a record are, from the scales that stand in it. Shown only; no part of what is signed. */
import {
  dividedBy,
  isPositive,
  type Mass,
  type Ratio,
  ratio,
} from '../../core/quantity/quantity.ts';
import type { AdditionText, MaterialResult } from '../../core/result/record.ts';
import { massFrom } from '../../core/run/mass-text.ts';
import { readScaleText } from '../../core/run/size-text.ts';
import {
  shareVariance,
  showShareUncertainty,
  showUncertainty,
  totalVariance,
  type Weighed,
  weighedOn,
} from '../../core/scale/uncertainty.ts';
import type { RecordView } from './show-record.ts';

/** What an addition was weighed in: as many equal masses as it had weighings, or lots where these were more. */
const weighedIn = ({ record }: RecordView, addition: AdditionText): readonly Weighed[] => {
  const scale = record.plan.scales.find(each => each.name === addition.scale);
  const result = record.result.additions.find(each => each.step === addition.step);
  if (scale === undefined || result === undefined) return [];
  const count = Math.max(addition.weighings, result.lots.length, 1);
  const net = massFrom(result.net);
  if (!isPositive(net)) return [];
  const each: Mass = dividedBy(net, ratio(BigInt(count)));
  return Array.from({ length: count }, () => weighedOn(readScaleText(scale), each));
};

// Two significant digits (GUM 7.2.6), as far as a millionth of a gram.
const inTwoDigits = (
  variance: Ratio,
  show: (variance: Ratio, places: number) => string,
): string => {
  const enough = [0, 1, 2, 3, 4, 5].find(
    places => show(variance, places).replace(/\D/g, '').replace(/^0+/, '').length >= 2,
  );
  return show(variance, enough ?? 6);
};

// Without its class nobody knows what a scale may be off, and the true figure is larger.
const bounded = (all: readonly Weighed[], text: string): string =>
  all.some(({ limit }) => limit === undefined) ? `over ${text}` : text;

const shown = (all: readonly Weighed[]): string | undefined =>
  all.length === 0 ? undefined : bounded(all, inTwoDigits(totalVariance(all), showUncertainty));

export const additionUncertainty = (view: RecordView, addition: AdditionText): string | undefined =>
  shown(weighedIn(view, addition));

/** Of all additions together. Adjust steps stand outside: they are measured, not weighed. */
export const totalUncertainty = (view: RecordView): string | undefined =>
  shown(view.record.plan.additions.flatMap(addition => weighedIn(view, addition)));

/** Of a material's mass and of its share; absent where an adjust step took some of it, or nothing was weighed. */
export const materialUncertainty = (
  view: RecordView,
  { material }: MaterialResult,
): { readonly mass: string; readonly share: string } | undefined => {
  const { plan, result } = view.record;
  if (result.adjustments.some(each => each.material === material)) return undefined;
  const [part, others] = [true, false].map(own =>
    plan.additions
      .filter(addition => (addition.material === material) === own)
      .flatMap(addition => weighedIn(view, addition)),
  );
  const mass = part && shown(part);
  if (part === undefined || others === undefined || mass === undefined) return undefined;
  const share = inTwoDigits(shareVariance(part, others), showShareUncertainty);
  return { mass, share: bounded([...part, ...others], share) };
};
