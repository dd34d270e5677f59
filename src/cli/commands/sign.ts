import { type Meaning, meanings } from '../../core/dialogue/bench.ts';
import { signBatch } from '../../workshop/sign-batch.ts';
import { askSigner } from '../ask-signer.ts';
import { exitStatus } from '../exit-status.ts';
import { keysFolder } from '../places.ts';
import { Stop, usage } from '../stop.ts';
import { batchThere, isPractice, theWorkshop, type WorkshopOptions } from '../the-workshop.ts';

interface SignOptions extends WorkshopOptions {
  readonly as: string;
  readonly by?: string;
}

const readMeaning = (text: string): Meaning => {
  const meaning = meanings.find(each => each === text || each === `${text} by`);
  return meaning ?? usage(`--as takes ${meanings.join(', ')}, not ${text}.`);
};

/** Signs the record of a closed batch, finishing its closing first where that was interrupted. */
export const sign = async (batch: string, options: SignOptions): Promise<number> => {
  const meaning = readMeaning(options.as);
  const workshop = theWorkshop(options, isPractice(batch));
  batchThere(workshop, batch);
  const signer = await askSigner(workshop, options.by, name => `${batch} as ${meaning} ${name}`);
  const signed = signBatch(workshop, keysFolder(), { batch, ...signer, meaning });
  if (!signed.ok) throw new Stop(exitStatus.doesNotHold, signed.why);
  process.stdout.write(`Signed: ${signed.value}\n`);
  return exitStatus.good;
};
