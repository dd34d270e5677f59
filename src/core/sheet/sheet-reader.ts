import { type DraftOf, keyed, named, optional, required } from './keys.ts';
import { limit } from './read-limit.ts';
import { material } from './read-material.ts';
import { whole } from './read-number.ts';
import { batchCode, phase } from './read-phase.ts';
import { mass, percentage, volume } from './read-quantity.ts';
import { scaleCheck } from './read-scale-check.ts';
import { step } from './read-step.ts';
import { period } from './read-time.ts';
import { tolerance } from './read-tolerance.ts';
import { choice, listOf, oneOrMore, placed, words } from './reader.ts';

const makes = keyed({
  piece: required(words('dome'), 'What one piece is called.'),
  count: required(whole('36', 1, 1_000_000), 'How many pieces one batch gives.'),
  fill: required(mass('95 g'), 'Mass of one piece.'),
  loss: optional(
    percentage('2 %', { isZeroPossible: true, isAllPossible: false }),
    'What stays behind in bowls and sieves, of all that is weighed in.',
  ),
});

/** The one description of a sheet: its keys, what may stand under each, and what editors say of it. */
export const sheetReader = keyed({
  sheet: required(words('Cedar bath domes'), 'The name of the sheet.'),
  code: required(batchCode, 'Begins the number of each batch: 2 to 8 capital letters or digits.'),
  revision: required(whole('1', 1, 999_999), 'Counts up when the sheet changes.'),
  makes: required(makes, 'What one batch gives.'),
  tolerance: optional(
    tolerance('1 %, at least 0.05 g'),
    'Of each target, unless a line says otherwise.',
  ),
  'use within': optional(period('9 months'), 'Days, weeks or months from the last addition.'),
  contact: optional(choice(['rinse-off', 'leave-on']), 'Whether it stays on the skin.'),
  'scale check': optional(
    placed(scaleCheck),
    'How long before a batch its scales must have been checked.',
  ),
  measures: optional(named(volume('2 mL')), 'Measures of your own, such as a scoop.'),
  cautions: optional(oneOrMore(words('Not food.')), 'What everyone has to know.'),
  materials: required(named(material), 'Everything that goes in, by the name that steps use.'),
  limits: optional(listOf(limit), 'Bounds that each batch has to keep.'),
  phases: required(listOf(phase), 'Groups of steps that share a vessel.'),
  finish: optional(listOf(step), 'What is done when all phases are.'),
});

export type DraftSheet = DraftOf<typeof sheetReader>;
