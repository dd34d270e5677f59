/** What is settled around a batch: who makes it, on which scales, and the signature at its end. */

import type { Scale } from '../plan/plan.ts';
import { readMass, readTerms } from '../quantity/amount.ts';
import { isLess } from '../quantity/quantity.ts';
import { showGrams } from '../quantity/show.ts';
import { massUnits, unitNamed } from '../quantity/unit.ts';
import type { Bench, Opening } from './bench.ts';
import { atTheDesk } from './commands.ts';
import type { Question, QuestionKind, Saying } from './conversation.ts';
import type { KeyAct } from './key-act.ts';

const ask = (
  kind: QuestionKind,
  text: string,
  field: Question['field'],
  enter?: string,
): Question => ({
  kind,
  ask: text,
  field,
  commands: atTheDesk,
  isDeliberate: false,
  ...(enter === undefined ? {} : { enter }),
});

export const askWho = (): Question =>
  ask('who', 'Who makes this batch? Type your name; it stands in the record.', 'text');

export const askScales = (entered: number): Question =>
  ask(
    'scales',
    entered === 0
      ? 'Which scales do you weigh on? One a line, like: big 10 kg x 0.1 g. Enter alone takes two common ones, big 10 kg x 0.1 g and fine 200 g x 0.01 g.'
      : 'Another scale, or Enter alone when all are in.',
    'text',
    entered === 0 ? 'takes the two common scales' : 'all scales are in',
  );

/** What is about to be made, before it has a number. */
export const askBegin = (bench: Bench, opening: Opening): Question => {
  const { plan } = bench.plan(opening, bench.scales());
  const { sheet } = opening;
  const mark = opening.practice ? ' for practice' : '';
  return ask(
    'begin',
    `${sheet.name}, revision ${sheet.revision}: ${plan.size.pieces} × ${sheet.makes.piece}, ${showGrams(plan.size.batchMass, 1)} to weigh in, ${plan.additions.length} additions. Enter begins the batch${mark}.`,
    'enter',
    `begins the batch${mark}`,
  );
};

export const askBeginReason = (): Question => ({
  ...ask(
    'reason',
    'Why does the batch begin all the same? Or leave, and check the scale first.',
    'text',
  ),
  isDeliberate: true,
});

/** Whether the batch may begin only with a reason: one of its scales was not checked in time. */
export const needsReason = (bench: Bench): boolean =>
  bench.opening !== undefined &&
  bench
    .plan(bench.opening, bench.scales())
    .problems.some(each => each.code === 'scale-unchecked' && each.severity !== 'error');

/** What the plan finds about the batch that is about to begin. */
export const sayFindings = (bench: Bench): readonly Saying[] =>
  bench.opening === undefined
    ? []
    : bench.plan(bench.opening, bench.scales()).problems.map(({ severity, message, mend }) => ({
        tone: severity === 'error' ? 'stop' : severity === 'warning' ? 'mend' : 'plain',
        text: `${message} ${mend}`,
      }));

const actText = ({ kind, name }: KeyAct): string =>
  kind === 'sign' ? `Sign the record as made by ${name}` : `${name} witnesses the step`;

export const askNewPassphrase = (act: KeyAct): Question =>
  ask(
    'new-passphrase',
    `${actText(act)}: choose a passphrase for your key, eight characters at least.`,
    'secret',
  );

export const askRepeat = (): Question =>
  ask('repeat-passphrase', 'Type the passphrase once more.', 'secret');

export const askPassphrase = (act: KeyAct): Question => {
  const question = ask('passphrase', `${actText(act)}: type your passphrase.`, 'secret');
  return act.kind === 'sign'
    ? question
    : {
        ...question,
        commands: [{ word: 'back', does: 'goes back to the witness' }, ...question.commands],
      };
};

export const askFinished = (text: string): Question =>
  ask('finished', `${text} Enter ends.`, 'enter', 'ends');

/** Reads `big 10 kg x 0.1 g`: a name, the capacity, the readability; the display's unit is that of the readability. */
export const readScaleLine = (line: string): Scale | undefined => {
  const match = /^(\p{L}[\p{L}\p{N} -]{0,30}?)[\s:,]+(\d.*?)\s*[x×]\s*(\d.*)$/iu.exec(line.trim());
  const [, name = '', carries = '', shows = ''] = match ?? [];
  const capacity = readMass(carries);
  const readability = readMass(shows);
  const unit = unitNamed(readTerms(shows)?.[0]?.unit ?? '', massUnits);
  return capacity === undefined ||
    readability === undefined ||
    unit === undefined ||
    !isLess(readability, capacity)
    ? undefined
    : { name: name.trim(), capacity, readability, unit };
};
