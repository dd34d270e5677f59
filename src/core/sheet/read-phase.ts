import { type DraftOf, keyed, optional, required } from './keys.ts';
import { quote } from './quote.ts';
import { whole } from './read-number.ts';
import { mass, percentage } from './read-quantity.ts';
import { step } from './read-step.ts';
import { fromText, listOf, oneOrMore, placed, words } from './reader.ts';

/** A code that begins the number of a batch, and so the name of a folder. */
export const batchCode = fromText('CDR', (text, fault) => {
  if (/^[A-Z][A-Z0-9]{1,7}$/.test(text)) return text;
  const mend = 'Write 2 to 8 capital letters or digits, a letter first, such as CDR';
  return fault('bad-code', `${quote(text)} cannot number batches.`, mend);
});

const vessel = keyed({
  name: required(placed(words('bowl')), 'By which steps name the vessel.'),
  tare: optional(mass('800 g'), 'What it weighs empty.'),
  holds: optional(mass('5 kg'), 'The most that it takes.'),
});

const anyShare = { isZeroPossible: false, isAllPossible: true };

const rework = keyed({
  of: required(batchCode, 'The code of the sheet that crumbs may come from.'),
  most: required(percentage('5 %', anyShare), 'The greatest share of the phase.'),
});

export const phase = keyed({
  phase: required(placed(words('Base')), 'The name of the phase.'),
  share: optional(placed(percentage('85 %', anyShare)), 'Its share of the batch’s mass.'),
  vessel: required(vessel, 'What its additions go into.'),
  after: optional(oneOrMore(placed(words('Base'))), 'Phases that have to be done first.'),
  portions: optional(whole('3', 1, 100), 'In how many bowls the phase is made.'),
  rework: optional(rework, 'Lets crumbs of earlier batches go in.'),
  steps: required(listOf(step), 'What is done, in order.'),
});

export type DraftPhase = DraftOf<typeof phase>;
