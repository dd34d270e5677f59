/** Text in terminal cells: how wide it is, cut to a width, and wrapped. */

const wide: readonly (readonly [number, number])[] = [
  [0x1100, 0x115f],
  [0x2e80, 0x303e],
  [0x3041, 0x33ff],
  [0x3400, 0x4dbf],
  [0x4e00, 0x9fff],
  [0xa000, 0xa4cf],
  [0xac00, 0xd7a3],
  [0xf900, 0xfaff],
  [0xfe30, 0xfe6f],
  [0xff00, 0xff60],
  [0xffe0, 0xffe6],
  [0x20000, 0x3fffd],
];

const isWide = (character: string): boolean => {
  const code = character.codePointAt(0) ?? 0;
  if (code < 0x1100) return false;
  return /\p{Emoji_Presentation}/u.test(character) || wide.some(([a, b]) => code >= a && code <= b);
};

// Latin with its accents, dashes, quotes, dots: to ask the large classes below costs a start milliseconds.
const isCommon = (character: string): boolean =>
  /[\u0020-\u007e\u00a0-\u00ac\u00ae-\u02ff\u2010-\u2027]/.test(character);

/** Cells of one character: 0 for what joins the one before, 2 for wide scripts (UAX #11), else 1. */
const cellsOf = (character: string): number => {
  if (isCommon(character)) return 1;
  return /[\p{Mn}\p{Me}\p{Cf}]/u.test(character) ? 0 : isWide(character) ? 2 : 1;
};

const isPlain = (text: string): boolean => /^[ -~]*$/.test(text);

export const cellWidth = (text: string): number =>
  isPlain(text) ? text.length : Array.from(text).reduce((sum, each) => sum + cellsOf(each), 0);

/** The longest start of a text that is at most so many cells wide. */
export const startOf = (text: string, cells: number): string => {
  let used = 0;
  let kept = '';
  for (const character of text) {
    used += cellsOf(character);
    if (used > cells) break;
    kept += character;
  }
  return kept;
};

/** Stands for what was cut off. */
export const cutMark = '\u2026';

/** Cut to so many cells. */
export const cutTo = (text: string, cells: number): string => {
  if (cellWidth(text) <= cells) return text;
  return cells < 1 ? '' : `${startOf(text, cells - 1).trimEnd()}${cutMark}`;
};

/** Cut or filled with blanks to exactly so many cells. */
export const fillTo = (text: string, cells: number, side: 'left' | 'right' = 'left'): string => {
  const cut = cutTo(text, cells);
  const blanks = ' '.repeat(Math.max(0, cells - cellWidth(cut)));
  return side === 'left' ? cut + blanks : blanks + cut;
};

// A number and its unit stay on one line.
const glue = (text: string): string =>
  text.replace(/(\d) (?=(?:mg|g|kg|oz|lb|mL|L|min|h|s|days|%)(?![\p{L}\d]))/gu, '$1\u00a0');

const splitLong = (word: string, cells: number): readonly string[] => {
  const pieces: string[] = [];
  let rest = word;
  while (cellWidth(rest) > cells) {
    const piece = startOf(rest, cells);
    if (piece === '') break;
    pieces.push(piece);
    rest = rest.slice(piece.length);
  }
  return [...pieces, rest];
};

/** Lines of at most so many cells; a number is never parted from its unit. */
export const wrapTo = (text: string, cells: number): readonly string[] => {
  const lines: string[] = [];
  let line = '';
  for (const word of glue(text)
    .split(' ')
    .flatMap(each => splitLong(each, cells))) {
    const longer = line === '' ? word : `${line} ${word}`;
    if (cellWidth(longer) <= cells) line = longer;
    else {
      lines.push(line);
      line = word;
    }
  }
  return [...lines, line].map(each => each.replaceAll('\u00a0', ' '));
};
