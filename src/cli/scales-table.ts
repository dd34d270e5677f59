import type { Scale } from '../core/plan/plan.ts';
import { toExact } from '../core/quantity/decimal.ts';
import type { Mass } from '../core/quantity/quantity.ts';
import { showDifference, showGrams, showMass } from '../core/quantity/show.ts';
import type { LoadChecked } from '../core/scale/check-scale.ts';
import { leastLoad } from '../core/scale/least-load.ts';
import { formatClock, formatDate, localDate, readInstant } from '../core/time/instant.ts';
import { layOut } from './lay-out.ts';

const heads = ['scale', 'carries', 'shows', 'class', 'e', 'least load', 'last check'];

const leastLoadText = (scale: Scale): string => {
  const lightest = leastLoad(scale);
  return lightest === undefined
    ? 'not known'
    : `${showMass(lightest.mass, scale)}, by ${lightest.by}`;
};

const lastCheckText = ({ lastCheck }: Scale): string => {
  const at = lastCheck && readInstant(lastCheck.at);
  return lastCheck === undefined || at === undefined
    ? 'never'
    : `${formatDate(localDate(at))} ${formatClock(at)}, ${lastCheck.verdict}`;
};

const rowOf = (scale: Scale): readonly string[] => [
  scale.name,
  showMass(scale.capacity, scale),
  showMass(scale.readability, scale),
  scale.accuracyClass ?? '–',
  scale.interval === undefined ? '–' : showMass(scale.interval, scale),
  leastLoadText(scale),
  lastCheckText(scale),
];

const isNumber = (column: number): boolean => column === 1 || column === 2 || column === 4;

/** The scales in use, for people. */
export const scalesTable = (scales: readonly Scale[]): string =>
  scales.length === 0
    ? 'No scale is entered yet. Enter one: tarebook scales add "big 10 kg x 0.1 g"'
    : layOut([heads, ...scales.map(rowOf)], isNumber).join('\n');

const exact = (mass: Mass | undefined): string | null =>
  mass === undefined ? null : toExact(mass);

const jsonOf = (scale: Scale) => {
  const lightest = leastLoad(scale);
  return {
    name: scale.name,
    capacity: toExact(scale.capacity),
    readability: toExact(scale.readability),
    unit: scale.unit,
    interval: exact(scale.interval),
    class: scale.accuracyClass ?? null,
    leastLoad: lightest === undefined ? null : { mass: toExact(lightest.mass), by: lightest.by },
    repeatability: exact(scale.repeatability),
    lastCheck: scale.lastCheck ?? null,
  };
};

/** The scales in use as JSON: masses are exact text in grams, what is not known is null. */
export const scalesJson = (scales: readonly Scale[]): string =>
  JSON.stringify({ scales: scales.map(jsonOf) }, null, 2);

/** One load of a check, for people. */
export const loadText = (scale: Scale, load: LoadChecked): string =>
  [
    `${showGrams(load.nominal, 0)}: off by ${showDifference(load.error, scale)}, ${showMass(load.limit, scale)} allowed either way: ${load.verdict}`,
    ...load.notes.map(note => `    ${note}`),
  ].join('\n');
