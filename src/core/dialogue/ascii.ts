import { escaped } from './harmless.ts';

const plainer: ReadonlyMap<string, string> = new Map([
  ['\u202f', ' '],
  ['\u2212', '-'],
  ['\u00b7', '-'],
  ['\u00d7', 'x'],
  ['\u00b1', '+/-'],
  ['\u00b0', ' deg '],
  ['\u2018', "'"],
  ['\u2019', "'"],
  ['\u201c', '"'],
  ['\u201d', '"'],
  ['\u2013', '-'],
  ['\u2014', '-'],
  ['\u2026', '...'],
]);

/** The text in ASCII, for a terminal that shows nothing else; what has no plainer form is shown by its code point. */
export const toAscii = (text: string): string =>
  text.replace(/[^\n -~]/gu, character => plainer.get(character) ?? escaped(character));
