import { type Problem, problem } from './problem.ts';

// A sheet of 200 lines has a tenth of this. The YAML library works itself out of memory on text that
// nests thousands deep, so size and depth are looked at before it is called.
const mostCharacters = 256 * 1024;
const mostLines = 5000;
const mostColumns = 2000;
const mostIndent = 80;
const mostOpenersOfLine = 100;
const mostOpenBrackets = 50;

const bracketsOf = (line: string): number => {
  let open = 0;
  for (const character of line) {
    if (character === '[' || character === '{') open += 1;
    if (character === ']' || character === '}') open -= 1;
  }
  return open;
};

const isTooMuch = (line: string): boolean =>
  line.length > mostColumns ||
  line.search(/\S|$/) > mostIndent ||
  (line.match(/[[{]|[:?-](?=\s|$)/g)?.length ?? 0) > mostOpenersOfLine;

const tooMuch = (line: number, message: string, mend: string): Problem =>
  problem('not-text', { line, column: 1 }, message, mend);

/** Refuses text that no editor saved as UTF-8, or that is longer or nests deeper than any sheet. */
export const checkOutline = (text: string): Problem | undefined => {
  if (text.length > mostCharacters) {
    return tooMuch(1, 'The file is far too large for a sheet.', 'Check that it is the right file.');
  }
  const lines = text.split('\n');
  if (lines.length > mostLines) {
    return tooMuch(
      1,
      'The file has far too many lines for a sheet.',
      'Check that it is the right file.',
    );
  }
  let open = 0;
  for (const [index, line] of lines.entries()) {
    open = Math.max(0, open + bracketsOf(line));
    if (isTooMuch(line) || open > mostOpenBrackets) {
      const message = 'This line is longer, or nested deeper, than any line of a sheet.';
      return tooMuch(
        index + 1,
        message,
        'Break it into shorter lines, or check that it is the right file.',
      );
    }
    const column = line.indexOf('\uFFFD') + 1;
    if (column > 0) {
      const message = 'Here stands a character that could not be read as UTF-8 text.';
      const mend = 'Type it again and save the file as UTF-8.';
      return problem('not-text', { line: index + 1, column }, message, mend);
    }
  }
  return undefined;
};
