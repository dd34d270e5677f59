const longest = 60;

/** A word of the sheet as a message names it: in quotation marks, cut where it is long. */
export const quote = (text: string): string => {
  const characters = Array.from(text);
  return characters.length <= longest ? `“${text}”` : `“${characters.slice(0, longest).join('')}…”`;
};

/** Several words, for a choice between them. */
export const quoteAll = (texts: Iterable<string>): string => [...texts].map(quote).join(', ');
