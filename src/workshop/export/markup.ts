/** HTML from a tagged template: whatever is put in is escaped, unless it is markup already. */
export interface Markup {
  readonly markup: string;
}

type Part = string | number | Markup | undefined | readonly Part[];

const entities: Readonly<Record<string, string>> = {
  '&': '&amp;',
  '<': '&lt;',
  '>': '&gt;',
  '"': '&quot;',
  "'": '&#39;',
};

// Control characters, and those that turn the direction of writing, would let a name disguise itself.
const unwanted = /[^\P{Cc}\n\t]|[\p{Cs}\u2028\u2029\u202A-\u202E\u2066-\u2069]/gu;

const escape = (text: string): string =>
  text.replace(unwanted, '\ufffd').replace(/[&<>"']/g, character => entities[character] ?? '');

const isList = (part: Part): part is readonly Part[] => Array.isArray(part);

const asMarkup = (part: Part): string => {
  if (part === undefined) return '';
  if (isList(part)) return part.map(asMarkup).join('');
  return typeof part === 'object' ? part.markup : escape(String(part));
};

export const html = (literals: TemplateStringsArray, ...parts: readonly Part[]): Markup => ({
  markup: literals.map((text, index) => text + asMarkup(parts[index])).join(''),
});
