import { type Entry, isEmpty, type MapNode } from './node.ts';
import { quote } from './quote.ts';
import { faultAt, type Report } from './reader.ts';

/** An entry, and the pieces that commas inside braces tore off its value. */
export interface EntryWithPieces {
  readonly entry: Entry;
  readonly pieces: readonly Entry[];
}

/**
 * Inside braces a comma ends the value before it, and the rest of the text becomes keys without values.
 * Puts such pieces back with the entry that they belong to; a key that `isKnown` stands for itself.
 */
export const gatherPieces = (
  node: MapNode,
  isKnown: (key: string) => boolean,
): readonly EntryWithPieces[] => {
  const gathered: { entry: Entry; pieces: Entry[] }[] = [];
  for (const entry of node.entries) {
    const last = gathered.at(-1);
    const isPiece = node.isInBraces && isEmpty(entry.value) && !isKnown(entry.key);
    if (isPiece && last?.entry.value.kind === 'text' && !isEmpty(last.entry.value)) {
      last.pieces.push(entry);
    } else {
      gathered.push({ entry, pieces: [] });
    }
  }
  return gathered;
};

/** Reports a torn value at its first piece; answers whether there was one. */
export const isTorn = ({ entry, pieces }: EntryWithPieces, report: Report): boolean => {
  const [first] = pieces;
  if (first === undefined || entry.value.kind !== 'text') return false;
  const fault = faultAt(first.place, report);
  const { text } = entry.value;
  if (/\d$/.test(text) && /^\d/.test(first.key)) {
    const number = `${text}.${first.key}`;
    fault(
      'decimal-comma',
      `A comma inside { } ends the value, so ${quote(entry.key)} is ${text} here.`,
      `Write the number with a point: ${entry.key}: ${number}`,
    );
    return true;
  }
  const whole = [text, ...pieces.map(piece => piece.key)].join(', ');
  fault(
    'no-value',
    `${quote(first.key)} has no value: a comma inside { } ends the value before it.`,
    `Put the whole text in quotes: ${entry.key}: ${inQuotes(whole)}`,
  );
  return true;
};

const inQuotes = (text: string): string => `"${text.replace(/[\\"]/g, String.raw`\$&`)}"`;
