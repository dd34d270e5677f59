import { quote } from './quote.ts';

// Edits of one character, neighbours swapped counting as one (restricted Damerau-Levenshtein).
const distance = (a: string, b: string): number => {
  let older: number[] = [];
  let old = Array.from({ length: b.length + 1 }, (_, column) => column);
  for (let row = 1; row <= a.length; row += 1) {
    const now = [row];
    for (let column = 1; column <= b.length; column += 1) {
      const change = a[row - 1] === b[column - 1] ? 0 : 1;
      const edits = [
        (old[column] ?? 0) + 1,
        (now[column - 1] ?? 0) + 1,
        (old[column - 1] ?? 0) + change,
      ];
      const isSwap = a[row - 1] === b[column - 2] && a[row - 2] === b[column - 1];
      if (isSwap) edits.push((older[column - 2] ?? 0) + 1);
      now.push(Math.min(...edits));
    }
    older = old;
    old = now;
  }
  return old[b.length] ?? 0;
};

const plain = (word: string): string => word.toLowerCase().replace(/[\s_-]+/g, ' ');

/** The word among `words` that `typed` is likeliest a slip for, if any is near: a third of its letters may be wrong. */
export const nearest = (typed: string, words: Iterable<string>): string | undefined => {
  const wanted = plain(typed);
  let best: { word: string; edits: number } | undefined;
  for (const word of words) {
    const right = plain(word);
    const most = Math.floor(right.length / 3);
    // Longer texts cannot be near, and need not be measured.
    if (Math.abs(right.length - wanted.length) > most) continue;
    const edits = distance(wanted, right);
    if (edits <= most && edits < (best?.edits ?? Infinity)) best = { word, edits };
  }
  return best?.word;
};

/** What to write instead of a name that is not there: the nearest of `names`, or what `otherwise` says. */
export const mendName = (typed: string, names: Iterable<string>, otherwise: string): string => {
  const near = nearest(typed, names);
  return near === undefined ? otherwise : `Write ${quote(near)} instead.`;
};
