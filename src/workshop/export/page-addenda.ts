/** What was added after closing; each part signed, the record itself unchanged. */
import type { Addendum } from '../../core/result/addendum.ts';
import { html, type Markup } from './markup.ts';
import { showInstant } from './show-record.ts';

const kindText = ({ kind, refers }: Addendum): string =>
  refers === undefined ? kind : `${kind} of deviation ${refers}`;

const row = (addendum: Addendum): Markup => html`<tr>
<td>${addendum.n}</td><th scope="row">${kindText(addendum)}</th><td>${addendum.text}</td>
<td class="small">${addendum.by}<br>${showInstant(addendum.at)}</td></tr>`;

export const addendaSection = (addenda: readonly Addendum[]): Markup | undefined =>
  addenda.length === 0
    ? undefined
    : html`<h2>Added after closing: ${addenda.length}</h2>
<table><thead><tr><th></th><th>What</th><th></th><th>Signed by, at</th></tr></thead>
<tbody>${addenda.map(row)}</tbody></table>`;
