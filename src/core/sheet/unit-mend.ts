import { nearest } from './nearest.ts';
import { quoteAll } from './quote.ts';

const everydayNames = new Map([
  ['gram', 'g'],
  ['gr', 'g'],
  ['gm', 'g'],
  ['milligram', 'mg'],
  ['kilogram', 'kg'],
  ['kilo', 'kg'],
  ['ounce', 'oz'],
  ['pound', 'lb'],
  ['litre', 'L'],
  ['liter', 'L'],
  ['millilitre', 'mL'],
  ['milliliter', 'mL'],
  ['cc', 'mL'],
  ['teaspoon', 'tsp'],
  ['tablespoon', 'tbsp'],
  ['tbs', 'tbsp'],
  ['fluid ounce', 'fl oz'],
  ['floz', 'fl oz'],
  ['percent', '%'],
  ['per cent', '%'],
  ['sec', 's'],
  ['second', 's'],
  ['minute', 'min'],
  ['hour', 'h'],
  ['hr', 'h'],
  ['piece', 'each'],
]);

/** Says what to write instead of a unit that does not belong: the text with the likeliest one, else all that do. */
export const mendUnit = (text: string, unit: string, units: Iterable<string>): string => {
  const names = [...units];
  const typed = unit.toLowerCase();
  const everyday = everydayNames.get(typed) ?? everydayNames.get(typed.replace(/s$/, ''));
  const near =
    names.find(name => name.toLowerCase() === typed || name === everyday) ?? nearest(unit, names);
  return near === undefined
    ? `Use one of ${quoteAll(names)}.`
    : `Write ${text.replace(unit, near)}`;
};
