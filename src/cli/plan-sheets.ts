import { existsSync } from 'node:fs';
import type { SizeWish } from '../core/plan/plan.ts';
import { readSizeOptions, type SizeOptions } from './size-options.ts';
import { usage } from './stop.ts';

/** A sheet to be planned, and its size. */
export interface SheetWish {
  readonly path: string;
  readonly wish: SizeWish;
}

/** `orange.yaml=36` in two; a file of the whole name goes first. */
const splitName = (named: string): { readonly path: string; readonly pieces?: string } => {
  const [, path, pieces] = /^(.+)=([^\p{L}/]*)$/u.exec(named) ?? [];
  if (path === undefined || pieces === undefined || existsSync(named)) return { path: named };
  return /^[1-9]\d{0,6}$/.test(pieces)
    ? { path, pieces }
    : usage(`${named}: after the = stands a whole number of pieces, like ${path}=36.`);
};

/**
 * The sheets of a call, each by itself or as SHEET=PIECES; an option of size is for those without
 * pieces of their own. Stops with status 2.
 */
export const readSheetWishes = (
  named: readonly string[],
  options: SizeOptions,
): readonly SheetWish[] => {
  const wish = readSizeOptions(options);
  const sheets = named.map(splitName);
  if (wish.by === 'have' && sheets.length > 1) {
    return usage('--have goes with one sheet: stock is not shared out between sheets.');
  }
  if (wish.by !== 'sheet' && sheets.every(({ pieces }) => pieces !== undefined)) {
    return usage('Every sheet has its pieces after the = already: leave the other size out.');
  }
  return sheets.map(({ path, pieces }) => ({
    path,
    wish: pieces === undefined ? wish : readSizeOptions({ pieces }),
  }));
};
