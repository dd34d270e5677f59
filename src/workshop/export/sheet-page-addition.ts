/** A weighed addition on paper: what goes in, how much, and room for what was read. */
import type { Addition, OnScale, PlannedStep, Window } from '../../core/plan/plan.ts';
import { onScale as onScaleOf, targetOf } from '../../core/plan/window.ts';
import type { Mass } from '../../core/quantity/quantity.ts';
import { showGrams, showMass } from '../../core/quantity/show.ts';
import type { Material, Sheet } from '../../core/sheet/sheet.ts';
import { blank } from './blanks.ts';
import { html, type Markup } from './markup.ts';

/** One weighing in divisions of its scale; a line that is weighed at once has one. */
interface Weighing {
  readonly name: string;
  readonly target: Mass;
  readonly window: Window;
}

const windowOn = ({ low, high }: OnScale, window: Window): Window => ({
  low: low ?? window.low,
  high: high ?? window.high,
});

const weighingsOf = (addition: Addition): readonly Weighing[] => {
  const { onScale, parts, window } = addition;
  const target = targetOf(addition);
  if (onScale === undefined) return [{ name: '', target, window }];
  if (parts === undefined) return [{ name: '', target, window: windowOn(onScale, window) }];
  return parts.map((part, index) => ({
    name: `Weighing ${index + 1} of ${parts.length}`,
    target: part.target,
    window: windowOn(onScaleOf(part.target, part.window, onScale.scale), part.window),
  }));
};

const nameCell = (
  { n, name }: Addition,
  material: Material | undefined,
  weighing: Weighing,
): Markup => {
  const { inci, hazard } = material ?? {};
  const isSame = inci?.toLowerCase() === name.toLowerCase();
  const more = inci === undefined || isSame ? undefined : html`<br>${inci}`;
  return html`<b>Line ${n}: ${name}</b><span class="small">${more}${hazard && html`<br><b>Hazard:</b> ${hazard}`}${weighing.name && html`<br>${weighing.name}`}</span>`;
};

const wayText = ({ place, vessel }: Addition): string =>
  place === 'vessel'
    ? `in the ${vessel}: tare, then pour`
    : `in a cup, then tip into the ${vessel}`;

const row = (
  sheet: Sheet,
  { n, step }: PlannedStep,
  addition: Addition,
  weighing: Weighing,
): Markup => {
  const material = sheet.materials.get(addition.material);
  const scale = addition.onScale?.scale;
  const show = (mass: Mass): string =>
    scale === undefined ? showGrams(mass, 4) : showMass(mass, scale);
  const { low, high } = weighing.window;
  return html`<tr class="weigh"><td class="n">${n}</td>
<td>${nameCell(addition, material, weighing)}${step.witness ? html`<br>${blank('Witness', '', 'short')}` : undefined}</td>
<td><span class="target-mass">${show(weighing.target)}</span><br><span class="small">accepted ${show(low)}<br>to ${show(high)}</span></td>
<td class="small"><b>${scale?.name ?? 'no scale'}</b><br>${wayText(addition)}</td>
<td class="small">${material?.hasLots === false ? 'no lot asked for' : undefined}</td>
<td><span class="unit">${scale?.unit ?? 'g'}</span></td><td></td><td></td></tr>`;
};

export const additionRows = (
  sheet: Sheet,
  planned: PlannedStep,
  addition: Addition,
): readonly Markup[] => weighingsOf(addition).map(each => row(sheet, planned, addition, each));
