import type { Opening } from '../../core/dialogue/bench.ts';
import { createConversation } from '../../core/dialogue/converse.ts';
import { createBench } from '../../workshop/bench.ts';
import { checkFace, type FaceOptions, showFace } from '../face.ts';
import { openSheet } from '../open-sheet.ts';
import { keysFolder } from '../places.ts';
import { preference, remember } from '../preferences.ts';
import { readBy } from '../read-by.ts';
import { readSizeOptions, type SizeOptions } from '../size-options.ts';
import { orStop, theWorkshop, type WorkshopOptions } from '../the-workshop.ts';

export interface RunOptions extends WorkshopOptions, SizeOptions, FaceOptions {
  readonly by?: string;
  readonly practice?: boolean;
}

const personOf = (by: string | undefined): string | undefined =>
  by === undefined ? preference('person') : readBy(by);

/** Makes a batch of a sheet: from its first question to the signed record. */
export const run = async (path: string, options: RunOptions): Promise<number> => {
  const size = readSizeOptions(options);
  const practice = options.practice === true;
  checkFace(options);
  const { sheet, text } = openSheet(path);
  const opening: Opening = { sheet, sheetText: text, size, practice };
  const person = personOf(options.by);
  const { bench, release } = orStop(
    createBench({
      workshop: theWorkshop(options, practice),
      keysDir: keysFolder(),
      opening,
      ...(person === undefined ? {} : { person }),
    }),
  );
  try {
    const conversation = createConversation(bench);
    const status = await showFace(conversation, options);
    const made = conversation.run();
    if (made.phase !== 'unbegun') await remember('person', made.begunBy);
    return status;
  } finally {
    release();
  }
};
