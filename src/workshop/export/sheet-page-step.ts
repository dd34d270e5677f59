/** A step on paper that weighs nothing in by a target: what to do, its limits, and room for what was done. */
import type { Plan, PlannedStep } from '../../core/plan/plan.ts';
import { readTerms } from '../../core/quantity/amount.ts';
import { toDecimal, toExact } from '../../core/quantity/decimal.ts';
import {
  grams,
  isEqual,
  type Mass,
  one,
  type Ratio,
  ratio,
  times,
} from '../../core/quantity/quantity.ts';
import { toMultiple } from '../../core/quantity/rounding.ts';
import { showDuration, showGrams } from '../../core/quantity/show.ts';
import type {
  AdjustStep,
  HoldStep,
  MeasureStep,
  Sheet,
  TallyStep,
} from '../../core/sheet/sheet.ts';
import { blank, tickBox } from './blanks.ts';
import { html, type Markup } from './markup.ts';

const hundredthGram: Mass = grams(ratio(1n, 100n));

/** The sheet's most at today's size, in its own unit; cut after two decimals, since it is a most. None for a sum of units. */
const ownMost = (typed: string, factor: Ratio): string | undefined => {
  if (isEqual(factor, one)) return typed;
  const [term, ...others] = readTerms(typed) ?? [];
  if (term === undefined || others.length > 0) return undefined;
  const cut = toDecimal(times(term.amount, factor), 2, 'down');
  return `${cut.replace(/\.?0+$/, '')} ${term.unit}`;
};

const capText = ({ most: { typed } }: AdjustStep, planned: PlannedStep, factor: Ratio): string => {
  const mass = planned.most && showGrams(toMultiple(planned.most, hundredthGram, 'down'), 2);
  return [ownMost(typed, factor), mass].filter(text => text !== undefined).join(', ');
};

const adjustCell = (sheet: Sheet, plan: Plan, planned: PlannedStep, step: AdjustStep): Markup => {
  const material = sheet.materials.get(step.material);
  const { hazard } = material ?? {};
  const by = step.by === undefined ? '' : `, about ${step.by.typed} at a time`;
  return html`<b>Add ${material?.name ?? step.material} little by little${by}, until ${step.until}.</b>
At most ${capText(step, planned, plan.size.factor)}.${hazard && html` <b>Hazard:</b> ${hazard}.`}<br>
${material?.hasLots === false ? undefined : blank('Lot')}<span class="small">Each amount with its unit:</span><br>
${Array.from({ length: 8 }, () => blank('', '', 'short'))}<br>${blank('In all')}`;
};

const boundsText = ({ least, most, unit }: MeasureStep): string => {
  const bounds = [
    ...(least === undefined ? [] : [`at least ${toExact(least)} ${unit}`]),
    ...(most === undefined ? [] : [`at most ${toExact(most)} ${unit}`]),
  ];
  return bounds.length === 0 ? '' : `: ${bounds.join(', ')}`;
};

const measureCell = (step: MeasureStep): Markup =>
  html`<b>Measure ${step.what}${boundsText(step)}.</b><br>${blank('Read', step.unit)}${blank('Measured again', step.unit)}`;

const holdCell = ({ why, least, most }: HoldStep): Markup => {
  const range =
    most === undefined
      ? `at least ${showDuration(least)}`
      : `at least ${showDuration(least)}, at most ${showDuration(most)}`;
  return html`<b>${why}</b> Wait ${range}.<br>${blank('Start, date and time')}${blank('End, date and time')}`;
};

const tallyCell = ({ weigh }: TallyStep): Markup => html`<b>Count and weigh what came out.</b><br>
${blank('Good pieces')}${blank('Samples kept')}<br>
${blank('Rejected', '', 'short')}${blank('because', '', 'long')}<br>
${blank('Rejected', '', 'short')}${blank('because', '', 'long')}<br>
${blank('Left over', 'g')}${blank('Crumbs', 'g')}
${weigh === 0 ? undefined : html`<br>Pieces weighed one by one:<br>${Array.from({ length: weigh }, (_, index) => blank(`${index + 1}`, 'g', 'short'))}`}`;

const emptiesText = (vessel: string | undefined): Markup | undefined =>
  vessel === undefined
    ? undefined
    : html`<br><span class="small">This empties the ${vessel}: nothing can be topped up in it afterwards.</span>`;

const ownCell = (sheet: Sheet, plan: Plan, planned: PlannedStep): Markup | undefined => {
  const { step } = planned;
  switch (step.kind) {
    case 'wear':
      return html`<b>Wear</b> ${step.items.map(tickBox)}`;
    case 'ready':
      return html`<b>Ready</b> ${step.items.map(tickBox)}`;
    case 'do':
      return html`${tickBox('')}<b>${step.text}</b>${emptiesText(step.empties)}`;
    case 'tip':
      return html`${tickBox('')}<b>Tip the ${step.from} into the ${step.into}.</b>`;
    case 'measure':
      return measureCell(step);
    case 'adjust':
      return adjustCell(sheet, plan, planned, step);
    case 'hold':
      return holdCell(step);
    case 'tally':
      return tallyCell(step);
    default:
      return undefined;
  }
};

const deadlineText = (plan: Plan, { step }: PlannedStep): Markup | undefined => {
  if (step.within === undefined) return undefined;
  const { seconds, of } = step.within;
  const from = plan.steps.find(each => each.step.name === of);
  return html`<br><span class="small">At the latest ${showDuration(seconds)} after step ${from?.n} (${of}) was done.</span> ${blank('That is at', '', 'short')}`;
};

export const stepRow = (sheet: Sheet, plan: Plan, planned: PlannedStep): Markup => {
  const witness = planned.step.witness ? html`<br>${blank('Witness', '', 'short')}` : undefined;
  return html`<tr><td class="n">${planned.n}</td>
<td colspan="5">${ownCell(sheet, plan, planned)}${deadlineText(plan, planned)}${witness}</td><td></td><td></td></tr>`;
};
