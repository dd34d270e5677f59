import type { AddendumKind } from '../../core/result/addendum.ts';
import { addAddendum } from '../../workshop/add-addendum.ts';
import { askSigner } from '../ask-signer.ts';
import { exitStatus } from '../exit-status.ts';
import { keysFolder } from '../places.ts';
import { Stop, usage } from '../stop.ts';
import { batchThere, isPractice, theWorkshop, type WorkshopOptions } from '../the-workshop.ts';

interface AddendOptions extends WorkshopOptions {
  readonly kind: AddendumKind;
  readonly text: string;
  readonly deviation?: string;
  readonly by?: string;
}

const readDeviation = (text: string): number =>
  /^[1-9]\d{0,3}$/.test(text)
    ? Number(text)
    : usage(`--deviation takes a number like 1, not ${text}.`);

/** Adds to a closed batch, signed; the record itself stays as it is. */
export const addend = async (batch: string, options: AddendOptions): Promise<number> => {
  const { kind, text } = options;
  const deviation =
    options.deviation === undefined ? {} : { deviation: readDeviation(options.deviation) };
  const workshop = theWorkshop(options, isPractice(batch));
  batchThere(workshop, batch);
  const signer = await askSigner(workshop, options.by, name => `${kind} to ${batch} as ${name}`);
  const added = addAddendum(workshop, keysFolder(), { batch, ...signer, kind, text, ...deviation });
  if (!added.ok) throw new Stop(exitStatus.doesNotHold, added.why);
  process.stdout.write(`Added to ${batch} and signed: ${kind}.\n`);
  return exitStatus.good;
};
