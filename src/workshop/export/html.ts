import type { BatchRecord } from '../../core/result/record.ts';
import { readSheet } from '../../core/sheet/read-sheet.ts';
import { isEntry } from '../verify/recompute/entry.ts';
import { bounds, htmlDocument } from './document.ts';
import { html, type Markup } from './markup.ts';
import { addendaSection } from './page-addenda.ts';
import { deviationsSection, pageHead, practiceMark } from './page-head.ts';
import { overPoursSection } from './page-over-pours.ts';
import { cautionsSection, limitsSection, materialsSection, yieldSection } from './page-result.ts';
import { scalesSection } from './page-scales.ts';
import { integritySection, signaturesSection } from './page-signatures.ts';
import { additionsSection, batchSection, stepsSection } from './page-steps.ts';
import { pageStyle } from './page-style.ts';
import type { More, RecordView } from './show-record.ts';

/** Throws a RangeError for a record whose sheet cannot be read. */
export const viewOf = (record: BatchRecord): RecordView => {
  const read = readSheet(record.sheet.text);
  if (!read.ok) throw new RangeError('the sheet in the record cannot be read');
  const events: readonly unknown[] = record.events;
  return { record, sheet: read.sheet, entries: events.filter(isEntry) };
};

const runner = ({ record }: RecordView): Markup =>
  html`<div class="runner"><span>${record.sheet.name}</span><span>Batch record ${record.batch}, sheet ${record.sheet.code} revision ${record.sheet.revision}</span></div>`;

const body = (
  view: RecordView,
  { signatures, addenda, state, head }: More,
): Markup => html`${pageHead(view, state)}
${deviationsSection(view)}
${overPoursSection(view)}
${yieldSection(view)}
${limitsSection(view)}
${cautionsSection(view)}
${materialsSection(view)}
${scalesSection(view)}
${additionsSection(view)}
${stepsSection(view)}
${batchSection(view)}
${signaturesSection(signatures)}
${addendaSection(addenda)}
${integritySection(view, head)}
<details><summary>The batch sheet as it was</summary><pre>${view.record.sheet.text}</pre></details>
<footer class="small">${bounds}</footer>`;

/**
 * The record as one printable page that holds everything it needs: no script, nothing from outside.
 * The head of the table stands again on every printed page. Throws a RangeError for a record whose
 * sheet cannot be read.
 */
export const recordHtml = (record: BatchRecord, more: More): string => {
  const view = viewOf(record);
  return htmlDocument(
    `${record.batch} ${record.sheet.name}`,
    pageStyle,
    html`<table class="whole"><thead><tr><td>${practiceMark(view)}${runner(view)}</td></tr></thead>
<tbody><tr><td>
${body(view, more)}
</td></tr></tbody></table>`,
  );
};
