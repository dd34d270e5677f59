/** What a typed line means, given what is asked. Pure: the conversation carries it out. */
import { readTerms } from '../quantity/amount.ts';
import { withoutMarks } from '../quantity/reading.ts';
import type { Asked } from '../run/asked.ts';
import type { Way } from '../run/event.ts';
import { additionInHand } from '../run/focus.ts';
import type { OpenRun } from '../run/state.ts';
import { withPoints } from '../run/typed-number.ts';
import { isCommandWord, splitLine } from './commands.ts';
import { hearAmend } from './hear-amend.ts';
import { acceptWith, hearOver, hearPart, hearReading, hearSlip } from './hear-weigh.ts';
import { intents, type Meaning, needReason, notUnderstood, shorten } from './meaning.ts';
import { tickable } from './tickable.ts';

/** Whether text reads as a quantity, a device's letters in front included: such text is never taken as a lot. */
const readsAsQuantity = (text: string): boolean => {
  const number = withoutMarks(text);
  return /^[+\-−]?\s*[\d.,]+$/.test(number) || readTerms(withPoints(number)) !== undefined;
};

const hearAlone = (word: string): Meaning | undefined => {
  switch (word) {
    case 'leave':
      return { kind: 'leave' };
    case 'help':
      return { kind: 'help' };
    case 'resume':
      return intents({ type: 'resume' });
    case 'put back':
      return intents({ type: 'leave-remedy' });
    case 'pause':
      return needReason('Why is the batch paused?', reason => ({ type: 'pause', reason }));
    case 'scrap':
      return needReason(
        'Why is the batch scrapped? It is closed as rejected, and that cannot be undone.',
        reason => ({ type: 'scrap', reason }),
      );
    default:
      return undefined;
  }
};

const hearEverywhere = (run: OpenRun, word: string, rest: string): Meaning | undefined => {
  const alone = rest === '' ? hearAlone(word) : undefined;
  if (alone !== undefined) return alone;
  switch (word) {
    case 'amend':
      return hearAmend(run, rest);
    case 'note':
      return intents({ type: 'note', text: rest });
    case 'turn':
      return intents({ type: 'turn-to', phase: rest });
    case 'hand over':
      return intents({ type: 'hand-over', to: rest });
    default:
      return undefined;
  }
};

/** What stands for a known lot: its last characters, three at least. */
const isTailOf = (text: string, known: string): boolean =>
  text.length >= 3 && known.toLowerCase().endsWith(text.toLowerCase());

const hearLot = (
  asked: Asked & { readonly kind: 'lot' },
  isAddition: boolean,
  line: string,
): Meaning => {
  const { n, known } = asked;
  const { word, rest } = splitLine(line);
  if (word === 'lot' && rest !== '') return intents({ type: 'identify-lot', step: n, lot: rest });
  if (rest === '' && isAddition && word === 'later') return intents({ type: 'put-later', step: n });
  if (rest === '' && isAddition && word === 'accept') return acceptWith(n);
  if (rest === '' && !isAddition && word === 'done')
    return intents({ type: 'finish-adjust', step: n });
  if (known !== undefined && isTailOf(line, known))
    return intents({ type: 'identify-lot', step: n, lot: known });
  const means = readsAsQuantity(line)
    ? 'reads as a weight'
    : isCommandWord(line)
      ? 'is a word that means something elsewhere'
      : undefined;
  return means === undefined
    ? intents({ type: 'identify-lot', step: n, lot: line })
    : notUnderstood(`${shorten(line)} ${means}. If it is the lot, type: lot ${shorten(line)}`);
};

const hearTick = (run: OpenRun, n: number, line: string): Meaning => {
  const { word } = splitLine(line);
  const steps = word === 'all' ? tickable(run, n) : [n];
  return line === '' || word === 'all'
    ? intents(...steps.map(step => ({ type: 'tick', step }) as const))
    : notUnderstood('Press Enter alone when it is done.');
};

const hearWitness = (step: number, line: string): Meaning => {
  const { word, rest } = splitLine(line);
  if (word !== 'alone') return { kind: 'witness', step, name: line };
  return rest === ''
    ? needReason('Why does nobody witness it?', reason => ({
        type: 'go-unwitnessed',
        step,
        reason,
      }))
    : intents({ type: 'go-unwitnessed', step, reason: rest });
};

const hearAdjust = (n: number, line: string): Meaning =>
  line.toLowerCase() === 'done'
    ? intents({ type: 'finish-adjust', step: n })
    : intents({ type: 'adjust', step: n, typed: line });

const hearHold = (n: number, isRunning: boolean, line: string): Meaning => {
  if (isRunning && splitLine(line).word === 'go on') {
    return needReason('Why does it not wait?', reason => ({ type: 'end-hold', step: n, reason }));
  }
  if (line !== '') return notUnderstood('Press Enter alone, or type a command; help lists them.');
  return intents(isRunning ? { type: 'end-hold', step: n } : { type: 'start-hold', step: n });
};

const hearAccept = (n: number, word: string, otherwise: string): Meaning =>
  word === 'accept' ? acceptWith(n) : notUnderstood(otherwise);

const needsText = (line: string, then: Meaning): Meaning =>
  line === '' ? notUnderstood('Type an answer first, or help.') : then;

/** The meaning of a line while `asked` is asked. */
export const hearLine = (
  run: OpenRun,
  asked: Asked,
  chosen: Way | undefined,
  typed: string,
): Meaning => {
  const line = typed.trim();
  const { word, rest } = splitLine(line);
  const everywhere = hearEverywhere(run, word, rest);
  if (everywhere !== undefined) return everywhere;
  switch (asked.kind) {
    case 'resume':
      return notUnderstood('Type resume to go on.');
    case 'close':
      return word === 'close'
        ? intents({ type: 'close' })
        : notUnderstood('Type close to close the batch.');
    case 'gone':
      return hearAccept(asked.n, word, 'Type accept to keep it, with a reason, or scrap.');
    case 'overdue':
      return hearAccept(asked.n, word, 'Type accept to go on late, or scrap.');
    case 'vessel':
      return intents({
        type: 'weigh-vessel',
        vessel: asked.vessel.name,
        ...(line === '' ? {} : { typed: line }),
      });
    case 'lot':
      return needsText(line, hearLot(asked, additionInHand(run, asked.n) !== undefined, line));
    case 'reading':
      return needsText(line, hearReading(run, asked.n, chosen, line));
    case 'residue':
    case 'after':
      return needsText(line, hearPart(run, asked.n, asked.kind, line));
    case 'over':
      return hearOver(run, asked.n, line);
    case 'slip':
      return hearSlip(run, asked.n, line);
    case 'witness':
      return needsText(line, hearWitness(asked.n, line));
    case 'tick':
      return hearTick(run, asked.n, line);
    case 'hold':
    case 'hold-running':
      return hearHold(asked.n, asked.kind === 'hold-running', line);
    case 'measure-out':
      if (word === 'accept') return acceptWith(asked.n);
      return needsText(line, intents({ type: 'measure', step: asked.n, typed: line }));
    case 'measure':
      return needsText(line, intents({ type: 'measure', step: asked.n, typed: line }));
    case 'adjust':
      return needsText(line, hearAdjust(asked.n, line));
    case 'tally':
      return needsText(
        line,
        intents({ type: 'tally', step: asked.n, item: asked.due.item, typed: line }),
      );
  }
};
