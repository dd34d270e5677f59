/** The visible code point of a character: `<U+001B>`. */
export const escaped = (character: string): string =>
  `<U+${(character.codePointAt(0) ?? 0).toString(16).toUpperCase().padStart(4, '0')}>`;

// The large classes below cost a start milliseconds to ask for, and are seldom needed.
const isPlain = (text: string): boolean => /^[ -~]*$/.test(text);

/** What a terminal might obey (controls, bidi marks, odd line ends, half characters) as its visible code point. */
export const harmless = (text: string): string =>
  isPlain(text)
    ? text
    : text.replace(
        /[\p{Cc}\p{Cs}\u061c\u200b\u200e\u200f\u2028-\u202e\u2060-\u206f\ufeff]/gu,
        escaped,
      );

/** The same for a text of several lines, which stay lines. */
export const harmlessLines = (text: string): string => text.split('\n').map(harmless).join('\n');
