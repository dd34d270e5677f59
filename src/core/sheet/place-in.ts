import type { Place } from './sheet.ts';

/**
 * Answers where in a text an offset stands. The YAML library's own counter misses lines of text that
 * it cannot read, which is where places matter most.
 */
export const placeIn = (text: string): ((offset: number) => Place) => {
  const starts = [0, ...Array.from(text.matchAll(/\n/g), ({ index }) => index + 1)];
  return offset => {
    const at = Math.min(Math.max(offset, 0), text.length);
    let [low, high] = [0, starts.length - 1];
    while (low < high) {
      const middle = Math.ceil((low + high) / 2);
      if ((starts[middle] ?? 0) <= at) low = middle;
      else high = middle - 1;
    }
    return { line: low + 1, column: at - (starts[low] ?? 0) + 1 };
  };
};
