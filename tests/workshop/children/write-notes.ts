/** Begins a batch and writes notes into it until it is killed, printing how many events are on the disk. */
import { readSheet } from '../../../src/core/sheet/read-sheet.ts';
import { beginBatch } from '../../../src/workshop/open-batch.ts';
import { openWorkshop } from '../../../src/workshop/workshop.ts';
import { saltSheet } from '../../helpers/salt-sheet.ts';

const workshop = openWorkshop(process.argv[2] ?? '', {
  practice: false,
  now: () => ({ epochMs: Date.UTC(2027, 2, 4), offset: 0 }),
  program: 'child',
  tell: console.log,
});
const read = readSheet(saltSheet);
if (!read.ok) throw new Error('the sheet does not read');
const opening = {
  sheet: read.sheet,
  sheetText: saltSheet,
  size: { by: 'sheet' },
  practice: false,
} as const;
const held = beginBatch(workshop, opening, [], { by: 'Ana' });
if (!held.ok) throw new Error(held.why);
for (let n = 1; n < 5000; n += 1) {
  console.log(n);
  const outcome = held.value.session.dispatch({ type: 'note', text: `note ${n}` });
  if (outcome.kind !== 'done') throw new Error(outcome.kind);
}
