import { existsSync } from 'node:fs';
import type { SizeWish } from '../core/plan/plan.ts';
import { planBatch } from '../core/plan/plan-batch.ts';
import type { ScaleCheck } from '../core/sheet/sheet.ts';
import { settingsOf } from '../workshop/settings.ts';
import { openSheet } from './open-sheet.ts';
import type { PlannedSheet } from './picking-list.ts';
import { readSizeOptions, type SizeOptions } from './size-options.ts';
import { usage } from './stop.ts';
import { orStop, scalesInUse, theWorkshop, type WorkshopOptions } from './the-workshop.ts';

/** A sheet to be planned, and its size. */
interface SheetWish {
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
const readSheetWishes = (named: readonly string[], options: SizeOptions): readonly SheetWish[] => {
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

/** The sheets of a call planned with the scales in use, and what the workshop asks of its scales. */
export const planSheets = (
  named: readonly string[],
  options: WorkshopOptions & SizeOptions,
): { readonly planned: readonly PlannedSheet[]; readonly scaleCheck: ScaleCheck | undefined } => {
  const wishes = readSheetWishes(named, options);
  const opened = wishes.map(({ path, wish }) => ({ path, wish, sheet: openSheet(path).sheet }));
  const workshop = theWorkshop(options, false);
  const scales = scalesInUse(workshop);
  const { scaleCheck } = orStop(settingsOf(workshop));
  return {
    scaleCheck,
    planned: opened.map(({ path, wish, sheet }) => ({
      path,
      sheet,
      ...planBatch(sheet, wish, scales),
    })),
  };
};
