/** What a line means while an addition waits for its reading, or for a decision. */
import type { Scale } from '../plan/plan.ts';
import { readReading } from '../quantity/reading.ts';
import { type Way, ways } from '../run/event.ts';
import { additionInHand } from '../run/focus.ts';
import type { StretchKind } from '../run/remedy-event.ts';
import { slipOf } from '../run/slip-of-run.ts';
import type { LastReading, OpenRun } from '../run/state.ts';
import { explainRemedy, remedyWords } from './ask-over.ts';
import { wayInHand } from './ask-weigh.ts';
import { splitLine } from './commands.ts';
import { intents, type Meaning, needReason, notUnderstood, shorten } from './meaning.ts';

const isWay = (word: string): word is Way => ways.some(way => way === word);

/** A right number for a reading; why the wrong one came about is asked next. */
export const hearRight = (scale: Scale | undefined, seq: number, typed: string): Meaning => {
  const reading = scale && readReading(typed, scale);
  if (reading?.ok === false) return notUnderstood(`${reading.message} ${reading.instead}`);
  return needReason('How did the wrong number come about?', reason => ({
    type: 'amend',
    seq,
    typed,
    reason,
  }));
};

const hearMistyped = (run: OpenRun, n: number): Meaning => {
  const found = additionInHand(run, n);
  const last = found?.state.lastReading;
  if (last === undefined) return notUnderstood('Nothing was read yet.');
  const scale = found?.addition.onScale?.scale;
  return {
    kind: 'pending',
    pending: {
      kind: 'number',
      title: `${last.reading.typed} was wrong. What is the right number?`,
      meaning: typed => hearRight(scale, last.seq, typed),
    },
  };
};

export const acceptWith = (step: number): Meaning =>
  needReason('Why is it accepted?', reason => ({ type: 'accept', step, reason }));

const canReadGross = (run: OpenRun, n: number): boolean =>
  additionInHand(run, n)?.addition.place === 'vessel';

export const hearReading = (
  run: OpenRun,
  n: number,
  chosen: Way | undefined,
  line: string,
): Meaning => {
  const { word, rest } = splitLine(line);
  if (rest === '' && word === 'gross' && !canReadGross(run, n)) {
    return notUnderstood(
      'The vessel cannot stand on that scale. Read net, in a cup or by difference.',
    );
  }
  if (rest === '' && isWay(word)) return { kind: 'way', way: word };
  if (word === 'lot') return intents({ type: 'identify-lot', step: n, lot: rest });
  if (rest === '' && word === 'tare') return intents({ type: 'tare', step: n });
  if (rest === '' && word === 'later') return intents({ type: 'put-later', step: n });
  if (rest === '' && word === 'mistyped') return hearMistyped(run, n);
  if (rest === '' && word === 'accept') return acceptUnder(run, n);
  if (!/\d/.test(line))
    return notUnderstood(
      `“${shorten(line)}” is neither a reading nor a command. Type the display, or help.`,
    );
  const way = wayInHand(run, n, chosen);
  return intents({
    type: 'read',
    step: n,
    way,
    part: way === 'difference' ? 'before' : 'display',
    typed: line,
  });
};

export const hearPart = (
  run: OpenRun,
  n: number,
  part: 'after' | 'residue',
  line: string,
): Meaning => {
  const { word, rest } = splitLine(line);
  if (rest === '' && word === 'mistyped') return hearMistyped(run, n);
  if (part === 'after') {
    if (rest === '' && word === 'accept') return acceptUnder(run, n);
    if (rest === '' && word === 'tare') return intents({ type: 'tare', step: n });
    if (word === 'lot') return intents({ type: 'identify-lot', step: n, lot: rest });
  }
  return intents({
    type: 'read',
    step: n,
    way: part === 'after' ? 'difference' : 'cup',
    part,
    typed: line,
  });
};

const takeBack = (n: number, { way }: LastReading): Meaning => ({
  kind: 'pending',
  pending: {
    kind: 'number',
    title: 'Lift some out, then type what the scale shows now.',
    meaning: typed =>
      intents({
        type: 'take-back',
        step: n,
        way,
        part: way === 'difference' ? 'after' : 'display',
        typed,
      }),
  },
});

const stretches: readonly StretchKind[] = ['least-stretch', 'whole-pieces', 'exact-proportion'];

export const hearOver = (run: OpenRun, n: number, line: string): Meaning => {
  const { word } = splitLine(line);
  const last = additionInHand(run, n)?.state.lastReading;
  if (word === 'mistyped') return hearMistyped(run, n);
  if (word === 'accept') return acceptWith(n);
  if (word === 'take back' && last !== undefined) return takeBack(n, last);
  const kind = stretches.find(each => remedyWords[each] === word);
  if (kind === undefined) {
    return notUnderstood('Decide first what is done about it: type one of the words above.');
  }
  const numbers = explainRemedy(run, kind);
  // What is not possible is refused with its reason.
  if (numbers === undefined) return intents({ type: 'choose-remedy', step: n, kind, reason: '' });
  return needReason(`The ${numbers}. Why was too much poured?`, reason => ({
    type: 'choose-remedy',
    step: n,
    kind,
    reason,
  }));
};

/** Yes and no are answers of the record; a yes asks for the right number, a no for what `otherwise` asks. */
const hearAnswer = (run: OpenRun, n: number, line: string, otherwise: Meaning): Meaning => {
  const answer = line.toLowerCase();
  if (answer !== 'yes' && answer !== 'no') return notUnderstood('Type yes or no.');
  const following = answer === 'yes' ? hearMistyped(run, n) : otherwise;
  return {
    ...intents({ type: 'answer-slip', step: n, answer }),
    ...(following.kind === 'pending' ? { next: following.pending } : {}),
  };
};

export const hearSlip = (run: OpenRun, n: number, line: string): Meaning =>
  hearAnswer(run, n, line, intents());

/** Whoever accepts a line that is under says that the pour is finished: then it may be a slip. */
const acceptUnder = (run: OpenRun, n: number): Meaning => {
  const slip = slipOf(run, n);
  if (slip === undefined) return acceptWith(n);
  return {
    kind: 'pending',
    pending: {
      kind: 'answer',
      title: `${slip.asks} ${slip.todo} Type yes or no.`,
      meaning: typed => hearAnswer(run, n, typed, acceptWith(n)),
    },
  };
};
