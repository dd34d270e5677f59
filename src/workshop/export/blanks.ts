/** What a pen fills in. */
import { html, type Markup } from './markup.ts';

type Width = 'short' | 'middle' | 'long';

/** A line to write on, with what it is before it and its unit behind. */
export const blank = (name: string, unit = '', width: Width = 'middle'): Markup =>
  html`<span class="fill">${name} <span class="blank ${width}"></span> ${unit}</span>`;

export const tickBox = (text: string): Markup =>
  html`<span class="tick"><span class="box"></span>${text}</span>`;

/** A column to write in; without a width it takes what is left. */
export interface Column {
  readonly head: string;
  readonly width?: 'narrow' | 'middle' | 'wide';
}

const headCell = ({ head, width }: Column): Markup =>
  width === undefined ? html`<th>${head}</th>` : html`<th class="w-${width}">${head}</th>`;

/** A table with heads and room to write. */
export const writingTable = (columns: readonly Column[], rows: readonly Markup[]): Markup =>
  html`<table class="lines"><thead><tr>${columns.map(headCell)}</tr></thead><tbody>${rows}</tbody></table>`;

/** The same with so many empty rows. */
export const emptyTable = (columns: readonly Column[], rows: number): Markup => {
  const row = html`<tr>${columns.map(() => html`<td></td>`)}</tr>`;
  return writingTable(
    columns,
    Array.from({ length: rows }, () => row),
  );
};
