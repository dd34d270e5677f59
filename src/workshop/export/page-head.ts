/** The top of the page: what was made, when and by whom; then what departed from the sheet. */
import { showDuration } from '../../core/quantity/show.ts';
import type { Deviation } from '../../core/run/state.ts';
import { readInstant } from '../../core/time/instant.ts';
import type { BatchState } from '../verify/check-state.ts';
import { html, type Markup } from './markup.ts';
import { type RecordView, showInstant, showMass } from './show-record.ts';
import { stepTitle } from './step-title.ts';

const fact = (name: string, value: string | Markup | undefined): Markup | undefined =>
  value === undefined ? undefined : html`<div><dt>${name}</dt><dd>${value}</dd></div>`;

export const practiceMark = ({ record }: RecordView): Markup | undefined =>
  record.practice ? html`<b class="practice">PRACTICE – NOT A BATCH FOR SALE</b>` : undefined;

const clockText = ({ entries }: RecordView): string | undefined => {
  const back = entries.filter((each, index) => {
    const before = entries[index - 1];
    const [then, now] = [before && readInstant(before.at), readInstant(each.at)];
    return then !== undefined && now !== undefined && now.epochMs < then.epochMs;
  });
  return back.length === 0
    ? undefined
    : `Went backwards before ${back.map(each => showInstant(each.at)).join(', ')}`;
};

const stateText = ({ name, decided }: BatchState): string => {
  if (decided === undefined) return name === 'rejected' ? 'rejected' : 'not released';
  return `${name} by ${decided.by}, ${showInstant(decided.at)}`;
};

export const pageHead = (view: RecordView, state: BatchState): Markup => {
  const { batch, sheet, plan, result, program } = view.record;
  const { piece } = view.sheet.makes;
  const outcome =
    result.outcome === 'made' ? 'Made' : `Rejected: ${result.reason ?? 'no reason given'}`;
  return html`<h1>${sheet.name}</h1>
<p>Batch record <b>${batch}</b> of sheet ${sheet.code}, revision ${sheet.revision}</p>
<dl class="facts">
${fact('Outcome', outcome)}
${fact('State', stateText(state))}
${fact('Begun', showInstant(result.begun))}
${fact('Closed', showInstant(result.closed))}
${fact('People', result.people.join(', '))}
${fact('Best before', result.bestBefore)}
${fact('Planned', `${plan.pieces} × ${piece}, ${showMass(plan.batchMass)}`)}
${fact('Weighed in', showMass(result.massIn))}
${fact('Good pieces and samples', result.yield === undefined ? undefined : String(result.yield.actual))}
${fact('Clock', clockText(view))}
${fact('Written by', program)}
</dl>`;
};

const kinds: Readonly<Record<Deviation['what'], string>> = {
  under: 'Under its window',
  over: 'Over its window',
  'out-of-limits': 'Out of limits',
  overdue: 'Later than allowed',
  'hold-early': 'Ended early',
  'hold-late': 'Ended late',
  'adjust-over': 'More than the sheet’s most',
  unwitnessed: 'Not witnessed',
  'scale-unchecked': 'A scale was not checked in time',
};

const isTime = (what: Deviation['what']): boolean =>
  what === 'overdue' || what === 'hold-early' || what === 'hold-late';

const shown = (what: Deviation['what'], value: string): string => {
  if (isTime(what)) return showDuration(BigInt(value));
  return what === 'out-of-limits' ? value : showMass(value);
};

const against = ({ what, found, least, most }: Deviation): string => {
  const bounds = [
    least === undefined ? '' : `at least ${shown(what, least)}`,
    most === undefined ? '' : `at most ${shown(what, most)}`,
  ].filter(text => text !== '');
  const allowed = bounds.length === 0 ? '' : ` (${bounds.join(', ')})`;
  return found === undefined ? '' : `${shown(what, found)}${allowed}`;
};

const deviationRow = (view: RecordView, deviation: Deviation, n: number): Markup => html`<tr>
<td>${n}</td>
<th scope="row">${stepTitle(view, deviation.step)}</th>
<td><b>${kinds[deviation.what]}</b><br>${against(deviation)}</td>
<td>${deviation.reason}</td>
<td class="small">${deviation.by}<br>${showInstant(deviation.at)}</td></tr>`;

export const deviationsSection = (view: RecordView): Markup => {
  const { deviations } = view.record.result;
  if (deviations.length === 0) {
    const isOver = view.entries.some(each => each.type === 'remedies-offered');
    const text = isOver
      ? 'None but what was poured over its window, see below.'
      : 'None: every step was done as the sheet says.';
    return html`<h2>Deviations</h2><p>${text}</p>`;
  }
  return html`<h2>Deviations: ${deviations.length}</h2>
<table><thead><tr><th></th><th>Step</th><th>What was found</th><th>Reason given</th><th>By, at</th></tr></thead>
<tbody>${deviations.map((each, index) => deviationRow(view, each, index + 1))}</tbody></table>`;
};
