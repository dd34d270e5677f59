/** Large figures, five rows high, from plain characters: read from an arm's length. */
import { minusSign, thinSpace } from '../../core/quantity/show.ts';

const glyphs: ReadonlyMap<string, readonly string[]> = new Map([
  ['0', ['###', '# #', '# #', '# #', '###']],
  ['1', [' # ', '## ', ' # ', ' # ', '###']],
  ['2', ['###', '  #', '###', '#  ', '###']],
  ['3', ['###', '  #', ' ##', '  #', '###']],
  ['4', ['# #', '# #', '###', '  #', '  #']],
  ['5', ['###', '#  ', '###', '  #', '###']],
  ['6', ['###', '#  ', '###', '# #', '###']],
  ['7', ['###', '  #', ' # ', ' # ', ' # ']],
  ['8', ['###', '# #', '###', '# #', '###']],
  ['9', ['###', '# #', '###', '  #', '###']],
  ['.', [' ', ' ', ' ', ' ', '#']],
  [':', [' ', '#', ' ', '#', ' ']],
  ['+', ['   ', ' # ', '###', ' # ', '   ']],
  [minusSign, ['   ', '   ', '###', '   ', '   ']],
  [thinSpace, ['', '', '', '', '']],
]);

/** Each point of a glyph is two cells wide: a cell is about half as wide as high. */
const point = (mark: string, ink: string): string => (mark === ' ' ? '  ' : ink + ink);

const glyphRow = (character: string, at: number, ink: string): string =>
  Array.from(glyphs.get(character)?.[at] ?? '', mark => point(mark, ink)).join('');

/** Five rows of equal width, or undefined for a text with other characters than figures. */
export const largeDigits = (text: string, ink: string): readonly string[] | undefined => {
  const characters = Array.from(text);
  if (!characters.every(each => glyphs.has(each))) return undefined;
  return [0, 1, 2, 3, 4].map(at => characters.map(each => glyphRow(each, at, ink)).join('  '));
};
