/** Who signed what, and what the page can be compared with. */
import type { SignatureHeader } from '../verify/formats.ts';
import { shortHash } from './fingerprint.ts';
import { html, type Markup } from './markup.ts';
import { type LedgerHead, type RecordView, showInstant } from './show-record.ts';

const signature = ({
  signer,
  meaning,
  at,
  kid,
}: SignatureHeader): Markup => html`<div class="signature">
<p><b>${signer}</b><br>${meaning}, ${showInstant(at)}</p>
<p class="small">Signed by key <span class="hash">${kid}</span></p></div>`;

export const signaturesSection = (signatures: readonly SignatureHeader[]): Markup =>
  signatures.length === 0
    ? html`<h2>Signatures</h2><div class="boxed"><b>Not signed.</b></div>`
    : html`<h2>Signatures</h2><div class="signatures">${signatures.map(signature)}</div>`;

export const integritySection = (
  { record }: RecordView,
  head: LedgerHead | undefined,
): Markup => html`<h2>To compare</h2>
<table><tbody>
<tr><th scope="row">Ledger when this page was made</th><td class="hash">${head === undefined ? 'empty' : `${head.seq}:${shortHash(head.hash)}`}</td></tr>
<tr><th scope="row">Events, and the last one’s hash</th><td class="hash">${record.journal.lines}, ${record.journal.hash}</td></tr>
</tbody></table>
<p class="small">This page is a copy to read. The record is record.json with its signatures in record.sig.json, and what was added after closing in the folder addenda; check them with “verify”, or with any program that reads JOSE signatures.</p>`;
