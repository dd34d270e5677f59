/** The scales of the batch: what is known of them, and whether they were checked in time. */
import { checkFaultOf } from '../../core/plan/unchecked-scales.ts';
import { toExact } from '../../core/quantity/decimal.ts';
import { showDuration } from '../../core/quantity/show.ts';
import type { ScaleText } from '../../core/run/event.ts';
import { readScaleText } from '../../core/run/size-text.ts';
import { leastLoad } from '../../core/scale/least-load.ts';
import { readInstant } from '../../core/time/instant.ts';
import type { EntryOf } from '../verify/recompute/entry.ts';
import { html, type Markup } from './markup.ts';
import { type RecordView, showInstant, showMass } from './show-record.ts';

const begunOf = ({ entries }: RecordView): EntryOf<'begun'> | undefined =>
  entries.find(each => each.type === 'begun');

const knownMass = (mass: string | undefined): string =>
  mass === undefined ? 'not known' : showMass(mass);

const leastText = (scale: ScaleText): string => {
  const lightest = leastLoad(readScaleText(scale));
  return lightest === undefined
    ? 'not known'
    : `${showMass(toExact(lightest.mass))}, by ${lightest.by}`;
};

const isInTime = (scale: ScaleText, { at, scaleCheck }: EntryOf<'begun'>): boolean => {
  const begun = readInstant(at);
  return begun !== undefined && checkFaultOf(scale, scaleCheck, begun) === undefined;
};

const checkText = ({ lastCheck }: ScaleText): string =>
  lastCheck === undefined ? 'never' : `${showInstant(lastCheck.at)}, ${lastCheck.verdict}`;

const row = ({ record }: RecordView, begun: EntryOf<'begun'>, scale: ScaleText): Markup => {
  const isUsed = record.plan.additions.some(each => each.scale === scale.name);
  const mark = !isUsed ? 'not used' : isInTime(scale, begun) ? '' : 'NOT CHECKED';
  return html`<tr><th scope="row">${scale.name}</th><td class="n">${showMass(scale.capacity)}</td>
<td class="n">${showMass(scale.readability)}</td><td>${scale.accuracyClass ?? 'not known'}</td><td>${knownMass(scale.interval)}</td>
<td>${leastText(scale)}</td><td>${checkText(scale)}</td><td class="mark">${mark}</td></tr>`;
};

const asked = ({ scaleCheck }: EntryOf<'begun'>): string =>
  scaleCheck === undefined
    ? 'No check of the scales was asked for before the batch.'
    : `A check within ${showDuration(scaleCheck.within)} before the batch was asked for.`;

export const scalesSection = (view: RecordView): Markup | undefined => {
  const begun = begunOf(view);
  return (
    begun &&
    html`<h2>Scales</h2><p>${asked(begun)}</p>
<table><thead><tr><th>Scale</th><th class="n">Carries</th><th class="n">Shows</th><th>Class</th><th>e</th><th>Least load</th><th>Last check</th><th></th></tr></thead>
<tbody>${view.record.plan.scales.map(scale => row(view, begun, scale))}</tbody></table>`
  );
};
