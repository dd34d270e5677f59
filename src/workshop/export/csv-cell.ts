/** Comma-separated values by RFC 4180, of which no cell can become a formula in a spreadsheet. */

const plainNumber = /^-?\d+(?:\.\d+)?$/;

// Where a spreadsheet takes semicolons or tabs for separators, what follows one begins a cell too.
// The wide forms of the signs are read as the signs themselves by some.
const laterStart = /[;|\t\r\n](?=\s*[=+\-@＝＋－＠])/g;
const start = /^(?=[\t\r\n]|\s*[=+\-@＝＋－＠])/;

// Nothing that a terminal obeys, that turns the direction of writing, or that UTF-8 cannot hold.
const unwanted = /[^\P{Cc}\t\r\n]|[\p{Cs}\u2028\u2029\u202A-\u202E\u2066-\u2069]/gu;

/**
 * A plain number stays one. Any other text is quoted; one that a spreadsheet could take for a formula
 * gets an apostrophe in front of the sign (or of the tab or line end that it begins with).
 */
export const formatCell = (text: string | undefined): string => {
  if (text === undefined || text === '' || plainNumber.test(text)) return text ?? '';
  const harmless = text.replace(unwanted, '\ufffd').replace(laterStart, "$&'").replace(start, "'");
  return `"${harmless.replaceAll('"', '""')}"`;
};

/** One line with its line end. */
export const formatLine = (cells: readonly (string | undefined)[]): string =>
  `${cells.map(formatCell).join(',')}\r\n`;
