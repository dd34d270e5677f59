/** What a pen fills in. */
import { html, type Markup } from './markup.ts';

type Width = 'short' | 'middle' | 'long';

/** A line to write on, with what it is before it and its unit behind. */
export const blank = (name: string, unit = '', width: Width = 'middle'): Markup =>
  html`<span class="fill">${name} <span class="blank ${width}"></span> ${unit}</span>`;

export const tickBox = (text: string): Markup =>
  html`<span class="tick"><span class="box"></span>${text}</span>`;

/** A table with so many empty rows under its heads. */
export const emptyRows = (heads: readonly string[], rows: number): Markup => {
  const row = html`<tr>${heads.map(() => html`<td></td>`)}</tr>`;
  return html`<table class="lines"><thead><tr>${heads.map(head => html`<th>${head}</th>`)}</tr></thead>
<tbody>${Array.from({ length: rows }, () => row)}</tbody></table>`;
};
