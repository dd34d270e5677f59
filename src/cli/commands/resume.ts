import { createConversation } from '../../core/dialogue/converse.ts';
import { createBench } from '../../workshop/bench.ts';
import { checkFace, type FaceOptions, showFace } from '../face.ts';
import { keysFolder } from '../places.ts';
import { isPractice, orStop, theWorkshop, type WorkshopOptions } from '../the-workshop.ts';

interface ResumeOptions extends WorkshopOptions, FaceOptions {
  /** Why the lock of another computer is set aside. */
  readonly takeOver?: string;
}

/** Goes on with a batch at the very step at which it was left. */
export const resume = async (batch: string, options: ResumeOptions): Promise<number> => {
  checkFace(options);
  const { bench, release } = orStop(
    createBench({
      workshop: theWorkshop(options, isPractice(batch)),
      keysDir: keysFolder(),
      batch,
      ...(options.takeOver === undefined ? {} : { takeOver: options.takeOver }),
    }),
  );
  try {
    return await showFace(createConversation(bench), options);
  } finally {
    release();
  }
};
