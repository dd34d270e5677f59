/** The field as it is painted: its text so far as it fits, the caret always in view. */
import type { Question } from '../../core/dialogue/conversation.ts';
import type { Field } from '../keys/field.ts';
import { cellWidth, startOf } from './cells.ts';
import type { Paper } from './paper.ts';

export interface FieldLine {
  readonly label: string;
  /** Cells for the text; its caret has one more. */
  readonly cells: number;
  readonly text: string;
  /** Cells between the start of the row and the caret. */
  readonly caret: number;
  /** How the text is understood; shown behind it. */
  readonly echo: string;
}

const labels: Partial<Record<Question['kind'], string>> = {
  reading: 'reading',
  residue: 'cup after',
  after: 'after',
  lot: 'lot',
  vessel: 'empty vessel',
  who: 'name',
  reason: 'reason',
  amend: 'display',
  over: 'what to do',
  slip: 'yes or no',
};

const labelOf = ({ kind, field }: Question): string => {
  if (field === 'secret') return 'passphrase';
  return labels[kind] ?? (field === 'enter' ? 'Enter or a word' : 'answer');
};

/** Drops whole characters from the start until the rest fits. */
const endOf = (text: string, cells: number): string => {
  let rest = text;
  while (cellWidth(rest) > cells) rest = rest.slice(startOf(rest, 2).length || 1);
  return rest;
};

export const fieldLine = (
  question: Question,
  field: Field,
  echo: string | undefined,
  paper: Paper,
): FieldLine => {
  const label = `${labelOf(question)}: `;
  const shown = (text: string): string =>
    question.field === 'secret' ? '*'.repeat(text.length) : paper.clean(text);
  const understood = echo === undefined ? '' : `   ${paper.clean(echo)}`;
  const room = paper.columns - label.length - 1;
  const isEchoed = room - cellWidth(understood) >= Math.min(16, cellWidth(shown(field.text)) + 1);
  const cells = room - (isEchoed ? cellWidth(understood) : 0);
  const before = endOf(shown(field.text.slice(0, field.caret)), cells);
  const after = startOf(shown(field.text.slice(field.caret)), cells - cellWidth(before));
  return {
    label,
    cells,
    text: before + after,
    caret: label.length + cellWidth(before),
    echo: isEchoed ? understood : '',
  };
};
