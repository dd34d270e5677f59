/** Yield, limits, cautions, materials with their lots. */

import { toExact } from '../../core/quantity/decimal.ts';
import type { LotMass, MaterialResult, YieldResult } from '../../core/result/record.ts';
import { limitSubject } from '../../core/run/explain-limit.ts';
import type { Limit } from '../../core/sheet/sheet.ts';
import { cautionsOf } from './cautions.ts';
import { html, type Markup } from './markup.ts';
import { type RecordView, showMass, showPercent } from './show-record.ts';
import { materialUncertainty, totalUncertainty } from './uncertainty.ts';

const row = (name: string, value: string): Markup =>
  html`<tr><th scope="row">${name}</th><td class="n">${value}</td></tr>`;

const rejectedText = ({ rejected }: YieldResult): string =>
  rejected.length === 0 ? '0' : rejected.map(each => `${each.count} (${each.reason})`).join(', ');

const weightRows = ({ weights, mean, spread }: YieldResult): readonly Markup[] => [
  ...(weights.length === 0
    ? []
    : [row('Pieces weighed', weights.map(each => showMass(each)).join(', '))]),
  ...(mean === undefined ? [] : [row('Mean', `${mean} g`)]),
  ...(spread === undefined ? [] : [row('Sample standard deviation', `${spread} g`)]),
];

export const yieldSection = ({ record }: RecordView): Markup => {
  const made = record.result.yield;
  if (made === undefined) return html`<h2>Yield</h2><p>Nothing was counted.</p>`;
  return html`<h2>Yield</h2><table class="pairs"><tbody>
${row('Theoretical, from what was weighed in', `${made.theoretical} pieces`)}
${row('Expected, the sheet’s loss taken off', `${made.expected} pieces`)}
${row('Actual, samples included', `${made.actual} pieces`)}
${row('Yield, of the theoretical', `${made.percent} %`)}
${row('Rejected', rejectedText(made))}
${row('Samples kept', String(made.samples))}
${row('Left over', showMass(made.leftOver))}
${row('Crumbs', showMass(made.crumbs))}
${weightRows(made)}
</tbody></table>`;
};

const boundsText = ({ kind, least, most }: Limit): string => {
  const show = (value: typeof least): string =>
    value === undefined ? '' : kind === 'share' ? showPercent(value) : toExact(value);
  return [least && `at least ${show(least)}`, most && `at most ${show(most)}`]
    .filter(text => text !== undefined)
    .join(', ');
};

const limitRow = (view: RecordView, limit: Limit, index: number): Markup => {
  const found = view.record.result.limits[index];
  const unit = limit.kind === 'share' ? ' %' : '';
  const actual = found?.actual === undefined ? '–' : found.actual + unit;
  return html`<tr><th scope="row">${limitSubject(view.sheet, limit)}</th><td>${boundsText(limit)}</td>
<td class="n">${actual}</td><td class="mark">${found?.holds === true ? 'kept' : 'BROKEN'}</td></tr>`;
};

export const limitsSection = (view: RecordView): Markup | undefined =>
  view.sheet.limits.length === 0
    ? undefined
    : html`<h2>Limits, on what was weighed in</h2>
<table><thead><tr><th>Of</th><th>Sheet</th><th class="n">Actual</th><th></th></tr></thead>
<tbody>${view.sheet.limits.map((limit, index) => limitRow(view, limit, index))}</tbody></table>`;

export const cautionsSection = ({ sheet }: RecordView): Markup | undefined => {
  const all = cautionsOf(sheet);
  return all.length === 0
    ? undefined
    : html`<h2>Cautions and hazards</h2><div class="boxed"><ul>${all.map(text => html`<li>${text}</li>`)}</ul></div>`;
};

const lotLine = ({ lot, mass, waste }: LotMass): Markup => {
  const lifted = waste === '0' ? '' : `, ${showMass(waste)} lifted out again`;
  return html`<div>${lot ?? 'no lot asked for'}: ${showMass(mass)}${lifted}</div>`;
};

const materialRow = (view: RecordView, material: MaterialResult): Markup => {
  const sure = materialUncertainty(view, material);
  return html`<tr>
<th scope="row">${material.name}</th><td class="n">${showMass(material.mass)}</td><td class="n small">${sure?.mass}</td>
<td class="n">${material.share} %</td><td class="n small">${sure?.share}</td><td>${material.lots.map(lotLine)}</td></tr>`;
};

const totalRow = (view: RecordView): Markup =>
  html`<tr><th scope="row"><b>All</b></th><td class="n"><b>${showMass(view.record.result.massIn)}</b></td><td class="n small">${totalUncertainty(view)}</td><td></td><td></td><td></td></tr>`;

export const materialsSection = (view: RecordView): Markup => html`<h2>Materials and lots</h2>
<table><thead><tr><th>Material</th><th class="n">Weighed in</th><th class="n">± U (k=2)</th><th class="n">Of all</th><th class="n">± U (k=2)</th><th>Lots</th></tr></thead>
<tbody>${view.record.result.materials.map(each => materialRow(view, each))}${totalRow(view)}</tbody></table>
<p class="small">U is worked out from the scales below by the GUM (JCGM 100): the rounding of the display, the repeatability and what the scale may be off in service. “over” stands where the class of a scale is not known, so that the last part is missing. What adjust steps took is not weighed and has none. U is for information: verdicts and the signed record do without it.</p>`;
