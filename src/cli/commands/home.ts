import { readHome } from '../../workshop/home.ts';
import { exitStatus } from '../exit-status.ts';
import type { FaceOptions } from '../face.ts';
import { sheetsHere } from '../sheets-here.ts';
import { orStop, theWorkshop, type WorkshopOptions } from '../the-workshop.ts';

interface HomeOptions extends WorkshopOptions, FaceOptions {}

/** What is here: sheets, batches in hand, closed records. */
export const home = async (options: HomeOptions): Promise<number> => {
  const sheets = sheetsHere(process.cwd());
  const books = [false, true].map(practice => orStop(readHome(theWorkshop(options, practice))));
  process.stdout.write(`${JSON.stringify({ sheets: sheets.map(s => s.path), books })}\n`);
  return exitStatus.good;
};
