/** The top of a sheet on paper: dangers first, then the size, the people, the scales, and what to do about a slip. */
import type { Plan, Scale } from '../../core/plan/plan.ts';
import { scalesOfPlan } from '../../core/plan/unchecked-scales.ts';
import { toExact } from '../../core/quantity/decimal.ts';
import { isEqual, isPositive, one, ratio, times } from '../../core/quantity/quantity.ts';
import { showDuration, showGrams, showMass } from '../../core/quantity/show.ts';
import type { ScaleCheck, Sheet } from '../../core/sheet/sheet.ts';
import { blank, type Column, emptyTable, writingTable } from './blanks.ts';
import { cautionsOf } from './cautions.ts';
import { html, type Markup } from './markup.ts';

/** What is printed of one sheet. */
export interface SheetToPrint {
  /** As the commands on the page name it. */
  readonly path: string;
  readonly sheet: Sheet;
  /** Without errors. */
  readonly plan: Plan;
  /** What the workshop asks for where the sheet says nothing. */
  readonly scaleCheck: ScaleCheck | undefined;
}

const cautionsPart = (sheet: Sheet): Markup | undefined => {
  const all = cautionsOf(sheet);
  return all.length === 0
    ? undefined
    : html`<div class="boxed kept"><b>Cautions and hazards</b><ul>${all.map(text => html`<li>${text}</li>`)}</ul></div>`;
};

const sizeText = (sheet: Sheet, { size }: Plan): string => {
  const over = isPositive(size.remainder) ? `, ${showGrams(size.remainder, 1)} over` : '';
  return `${size.pieces} × ${sheet.makes.piece}, ${showGrams(size.batchMass, 1)} to weigh in${over}`;
};

/** The option that gives the same size again; none for the sheet's own. */
const sizeOption = (sheet: Sheet, { size: { factor } }: Plan): string => {
  if (isEqual(factor, one)) return '';
  const pieces = times(factor, ratio(BigInt(sheet.makes.count)));
  return pieces.den === 1n ? ` --pieces ${pieces.num}` : ` --factor ${factor.num}/${factor.den}`;
};

const named = (path: string): string => (/^[\w./-]+$/.test(path) ? path : `"${path}"`);

const slipsPart = ({ path, sheet, plan }: SheetToPrint): Markup => html`<div class="boxed kept">
<p><b>A wrong number:</b> strike it through once, so that it can still be read; write the right one beside it, with initials.</p>
<p><b>More in than its window allows:</b> pour nothing else. If it can be lifted out clean, take some out, weigh again and write both readings. If not, any computer with Tarebook says what can still be done, with its numbers; for 312.0 g in line 2:
<span class="hash">tarebook remedy ${named(path)}${sizeOption(sheet, plan)} --poured 2=312.0</span></p></div>`;

const scaleRow = (scale: Scale): Markup =>
  html`<tr><td><b>${scale.name}</b></td><td>${showMass(scale.capacity, scale)}</td><td>${showMass(scale.readability, scale)}</td><td></td><td></td><td></td></tr>`;

const checkText = (rule: ScaleCheck | undefined): string =>
  rule === undefined
    ? 'No check is asked for before this batch.'
    : `Each is to be checked with test masses at the latest ${showDuration(rule.within)} before the batch${rule.otherwise === 'refuse' ? ', else no batch is begun' : ''}.`;

const scaleColumns: readonly Column[] = [
  { head: 'Scale' },
  { head: 'Carries', width: 'narrow' },
  { head: 'Shows', width: 'narrow' },
  { head: 'Checked, date and time', width: 'middle' },
  { head: 'Test mass, and what was shown', width: 'wide' },
  { head: 'Initials', width: 'narrow' },
];

const scalesPart = ({ sheet, plan, scaleCheck }: SheetToPrint): Markup => html`<div class="kept">
<h2>Scales</h2><p>${checkText(sheet.scaleCheck ?? scaleCheck)}</p>
${writingTable(scaleColumns, scalesOfPlan(plan).map(scaleRow))}</div>`;

const peopleColumns: readonly Column[] = [
  { head: 'Name' },
  { head: 'Initials', width: 'middle' },
  { head: 'Signature', width: 'wide' },
];

const measuresText = ({ measures }: Sheet): Markup | undefined =>
  measures.size === 0
    ? undefined
    : html`<p>Measures: ${[...measures].map(([name, volume]) => `1 ${name} = ${toExact(volume)} mL`).join(', ')}.</p>`;

export const beforePart = (print: SheetToPrint): Markup => {
  const { sheet, plan } = print;
  return html`<h1>${sheet.name}</h1>
<p>Batch sheet ${sheet.code}, revision ${sheet.revision}: <b>${sizeText(sheet, plan)}</b></p>
${cautionsPart(sheet)}
<p>${blank('Batch number', '', 'long')}${blank('Begun, date and time', '', 'long')}</p>
${measuresText(sheet)}
<div class="kept"><h2>People</h2>${emptyTable(peopleColumns, 3)}</div>
${scalesPart(print)}
${slipsPart(print)}`;
};
