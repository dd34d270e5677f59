/** Addenda and later signatures of a hand-written workshop, by the documented formats and nothing else. */
import { mkdirSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import type { More } from '../../src/workshop/export/show-record.ts';
import { chain, type Json, recordBytes, sha256, signAs, type Written } from './record.ts';
import { linesOf } from './tamper.ts';

export const nothingMore: More = {
  signatures: [],
  addenda: [],
  state: { name: 'made' },
  head: undefined,
};

const at = '2027-02-01T10:00:00.000+01:00';

const ledgerOf = ({ path }: Written): Json[] =>
  linesOf(readFileSync(path('ledger.jsonl'), 'utf8')).map(line => JSON.parse(line) as Json);

const enterLine = (written: Written, line: Json): void => {
  const bodies = ledgerOf(written).map(({ hash: _hash, ...body }) => body);
  const entry = { seq: bodies.length + 1, at, by: written.signer.name, ...line };
  writeFileSync(written.path('ledger.jsonl'), chain([...bodies, entry]).text);
};

const signNow = (written: Written, bytes: string, header: Json): Json => {
  const ledger = ledgerOf(written);
  return signAs(written.signer, bytes, {
    alg: 'Ed25519',
    typ: 'vnd.tarebook.addendum+json;version=0',
    kid: written.signer.kid,
    signer: written.signer.name,
    meaning: 'added by',
    at,
    ledger: { seq: ledger.length, prev: ledger.at(-1)?.['hash'] },
    ...header,
  });
};

const signatureLine = ({ signer, batch }: Written, entry: Json): Json => ({
  batch,
  signature: sha256(`${String(entry['protected'])}.${String(entry['signature'])}`),
  signer: signer.name,
  kid: signer.kid,
});

/** Signs the record once more, at the end of the ledger. */
export const signLater = (written: Written, meaning: string): void => {
  const bytes = readFileSync(written.path('record.json'), 'utf8');
  const typ = 'vnd.tarebook.batch-record+json;version=0';
  const entry = signNow(written, bytes, { typ, meaning });
  const path = written.path('record.sig.json');
  const { signatures } = JSON.parse(readFileSync(path, 'utf8')) as { signatures: Json[] };
  writeFileSync(path, recordBytes({ signatures: [...signatures, entry] }));
  const { batch, ...line } = signatureLine(written, entry);
  enterLine(written, { type: 'signed', batch, ...line, meaning });
};

export interface AddendumWishes {
  readonly n?: number;
  /** Changes the addendum before it is signed, the header, the line of the ledger. */
  readonly addendum?: Json;
  readonly header?: Json;
  readonly line?: Json;
  /** How far the writing got: the file alone, with its signature, into the ledger. */
  readonly until?: 'file' | 'signature' | 'ledger';
}

/** Adds to the batch. The text is invented. */
export const addTo = (written: Written, wishes: AddendumWishes = {}): void => {
  const { n = 1, until = 'ledger' } = wishes;
  const { refers, kind, text, ...rest } = wishes.addendum ?? {};
  const addendum: Json = {
    type: 'application/vnd.tarebook.addendum+json;version=0',
    batch: written.batch,
    n,
    kind: kind ?? 'packing',
    text: text ?? 'Nine domes, three to a box.',
    ...(refers === undefined ? {} : { refers }),
    at,
    by: written.signer.name,
    record: sha256(readFileSync(written.path('record.json'), 'utf8')),
    ...rest,
  };
  const bytes = recordBytes(addendum);
  const name = String(n).padStart(3, '0');
  mkdirSync(join(written.folder, 'addenda'), { recursive: true });
  writeFileSync(written.path(`addenda/${name}.json`), bytes);
  if (until === 'file') return;
  const entry = signNow(written, bytes, wishes.header ?? {});
  writeFileSync(written.path(`addenda/${name}.sig.json`), recordBytes({ signatures: [entry] }));
  if (until === 'signature') return;
  const { batch, ...line } = signatureLine(written, entry);
  enterLine(written, {
    type: 'addendum',
    batch,
    n,
    kind: addendum['kind'],
    ...(refers === undefined ? {} : { refers }),
    addendum: sha256(bytes),
    ...line,
    ...wishes.line,
  });
};
