/** `amend`: any reading that still counts is put right, from any step. */

import { amendableReadings } from '../run/decide-amend.ts';
import { additionInHand } from '../run/focus.ts';
import { massFrom } from '../run/mass-text.ts';
import type { Standing } from '../run/standing-reading.ts';
import type { OpenRun } from '../run/state.ts';
import { showOn } from './explain.ts';
import { hearRight } from './hear-weigh.ts';
import { intents, type Meaning, notUnderstood } from './meaning.ts';

const mostListed = 6;

const partText = { display: '', residue: ' left in the cup', before: ' before', after: ' after' };

const readingText = (run: OpenRun, { step, reading }: Standing): string => {
  const addition = additionInHand(run, step)?.addition;
  return addition === undefined
    ? ''
    : `${reading.seq}: ${addition.name} ${showOn(addition, massFrom(reading.mass))}${partText[reading.part]}`;
};

const hearNumbers = (run: OpenRun, line: string): Meaning => {
  const [, number = '', typed = ''] = /^(\d{1,9})\s+(.+)$/su.exec(line.trim()) ?? [];
  if (number === '')
    return notUnderstood('Type the number of the reading, a blank, and what the scale showed.');
  const seq = Number(number);
  const standing = amendableReadings(run).find(({ reading }) => reading.seq === seq);
  // What cannot be put right is refused with its reason.
  if (standing === undefined) return intents({ type: 'amend', seq, typed, reason: '' });
  const scale = additionInHand(run, standing.step)?.addition.onScale?.scale;
  return hearRight(scale, seq, typed);
};

/** With a number and a value the amendment itself, else the list to choose from. */
export const hearAmend = (run: OpenRun, rest: string): Meaning => {
  if (rest !== '') return hearNumbers(run, rest);
  const listed = amendableReadings(run).slice(0, mostListed);
  if (listed.length === 0) return notUnderstood('There is no reading that could be put right.');
  return {
    kind: 'pending',
    pending: {
      kind: 'number',
      title: `Which was wrong? ${listed.map(each => readingText(run, each)).join('; ')}. Type its number and what the scale showed, like ${listed[0]?.reading.seq} 12.5.`,
      meaning: line => hearNumbers(run, line),
    },
  };
};
