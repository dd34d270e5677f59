/** The end of a sheet on paper: limits, deviations, what was weighed in, signatures. */
import type { Plan } from '../../core/plan/plan.ts';
import { targetOf } from '../../core/plan/window.ts';
import { explainLimit } from '../../core/run/explain-limit.ts';
import { evaluateLimits, type LimitFinding } from '../../core/sheet/limits.ts';
import type { Sheet } from '../../core/sheet/sheet.ts';
import { blank, type Column, emptyTable, tickBox, writingTable } from './blanks.ts';
import { html, type Markup } from './markup.ts';

/** Each limit at today's targets; what adjust steps take is not known yet and left out. */
const findingsOf = (sheet: Sheet, { additions }: Plan): readonly LimitFinding[] =>
  evaluateLimits(
    sheet.limits,
    additions.map(each => ({ phase: each.phase, material: each.material, mass: targetOf(each) })),
  );

const limitRow = (sheet: Sheet, finding: LimitFinding): Markup =>
  html`<tr><td>${explainLimit(sheet, finding)} at the targets.</td><td></td><td>${tickBox('')}</td></tr>`;

const limitColumns: readonly Column[] = [
  { head: 'Limit' },
  { head: 'As weighed in', width: 'middle' },
  { head: 'Kept', width: 'narrow' },
];

export const limitsPart = (sheet: Sheet, plan: Plan): Markup | undefined => {
  if (sheet.limits.length === 0) return undefined;
  const rows = findingsOf(sheet, plan).map(each => limitRow(sheet, each));
  return html`<div class="kept"><h2>Limits</h2>${writingTable(limitColumns, rows)}</div>`;
};

const noteColumns: readonly Column[] = [
  { head: 'Step', width: 'narrow' },
  { head: 'What was found, and why' },
  { head: 'Time', width: 'narrow' },
  { head: 'Initials', width: 'narrow' },
];

export const notesPart: Markup = html`<div class="kept"><h2>Deviations and notes</h2>${emptyTable(noteColumns, 5)}</div>`;

const meanings = ['Made by', 'Witnessed by', 'Reviewed by', 'Released by'];

const bestBefore = ({ useWithin }: Sheet): Markup | undefined => {
  if (useWithin === undefined) return undefined;
  const { count, unit } = useWithin;
  const period = `${count} ${unit}${count === 1 ? '' : 's'}`;
  return blank(`Best before, ${period} after the last addition`);
};

const signRow = (meaning: string): Markup =>
  html`<tr><th>${meaning}</th><td></td><td></td><td></td></tr>`;

export const signaturesPart = (sheet: Sheet): Markup => html`<div class="kept"><h2>Closing</h2>
<p>${blank('Weighed in, in all', 'g')}${bestBefore(sheet)}</p>
<p>The batch was ${tickBox('made')}${tickBox('rejected')}${blank('because', '', 'long')}</p>
<table class="sign"><thead><tr><th></th><th>Name</th><th>Signature</th><th>Date and time</th></tr></thead>
<tbody>${meanings.map(signRow)}</tbody></table></div>`;
