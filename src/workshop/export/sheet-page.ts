/** A batch sheet to be filled in by hand, for the day on which no computer runs. */
import type { PlannedPhase, PlannedStep } from '../../core/plan/plan.ts';
import { placesOf } from '../../core/quantity/decimal.ts';
import type { Mass } from '../../core/quantity/quantity.ts';
import { showGrams } from '../../core/quantity/show.ts';
import { blank } from './blanks.ts';
import { bounds, htmlDocument } from './document.ts';
import { html, type Markup } from './markup.ts';
import { additionRows } from './sheet-page-addition.ts';
import { limitsPart, notesPart, signaturesPart } from './sheet-page-end.ts';
import { beforePart, type SheetToPrint } from './sheet-page-head.ts';
import { stepRow } from './sheet-page-step.ts';
import { sheetPageStyle } from './sheet-page-style.ts';

const columns = html`<colgroup><col class="c-step"><col><col class="c-target"><col class="c-scale"><col class="c-lot"><col class="c-read"><col class="c-time"><col class="c-by"></colgroup>
<thead><tr><th>Step</th><th>What</th><th>Target, window</th><th>Scale, way</th><th>Lot</th><th>Read, net</th><th>Time</th><th>Initials</th></tr></thead>`;

const rowsOf = ({ sheet, plan }: SheetToPrint, planned: PlannedStep): readonly Markup[] =>
  planned.addition === undefined
    ? [stepRow(sheet, plan, planned)]
    : additionRows(sheet, planned, planned.addition);

const showVessel = (mass: Mass): string => showGrams(mass, Math.min(placesOf(mass), 4));

const vesselText = ({ plan }: SheetToPrint, phase: PlannedPhase): Markup => {
  const { name, tare, holds } = phase.vessel;
  const first = plan.phases.find(each => each.vessel.name === name);
  if (first !== phase) return html`<p>Goes on in the ${name}.</p>`;
  const known = [
    ...(tare === undefined ? [] : [`empty ${showVessel(tare)} by the sheet`]),
    ...(holds === undefined ? [] : [`holds ${showVessel(holds)}`]),
  ];
  return html`<p>Vessel: ${[name, ...known].join(', ')}. ${blank('Weighed empty', 'g')}</p>`;
};

const phasePart = (print: SheetToPrint, phase: PlannedPhase): Markup => {
  const after =
    phase.after.length === 0
      ? undefined
      : html`<p>Not before ${phase.after.join(' and ')} is done.</p>`;
  const steps = print.plan.steps.filter(each => each.phase === phase.name);
  return html`<h2>${phase.name}, ${showGrams(phase.mass, 1)}</h2>${after}${vesselText(print, phase)}
<table class="work">${columns}<tbody>${steps.map(each => rowsOf(print, each))}</tbody></table>`;
};

const finishPart = (print: SheetToPrint): Markup | undefined => {
  const steps = print.plan.steps.filter(each => each.phase === undefined);
  return steps.length === 0
    ? undefined
    : html`<h2>Finish</h2><table class="work">${columns}<tbody>${steps.map(each => rowsOf(print, each))}</tbody></table>`;
};

const onePage = (print: SheetToPrint, program: string): Markup => {
  const { sheet, plan } = print;
  return html`<table class="whole"><thead><tr><td><div class="runner"><span>${sheet.name}, sheet ${sheet.code} revision ${sheet.revision}</span><span>Batch <span class="blank"></span></span></div></td></tr></thead>
<tbody><tr><td>
${beforePart(print)}
${plan.phases.map(each => phasePart(print, each))}
${finishPart(print)}
${limitsPart(sheet, plan)}
${notesPart}
${signaturesPart(sheet)}
<footer class="small">Printed by ${program}. ${bounds}</footer>
</td></tr></tbody></table>`;
};

/** One page of HTML for all of them, each sheet beginning on paper of its own: no script, nothing from outside. */
export const sheetPages = (sheets: readonly SheetToPrint[], program: string): string =>
  htmlDocument(
    sheets.map(({ sheet }) => sheet.name).join(', '),
    sheetPageStyle,
    html`${sheets.map(each => onePage(each, program))}`,
  );
