import type { Done } from '../core/dialogue/bench.ts';
import { witnessText } from '../core/run/witness-text.ts';
import type { HeldBatch } from './open-batch.ts';
import { signBytes } from './sign.ts';
import { unlock } from './signer-key.ts';
import type { Workshop } from './workshop.ts';

interface WitnessWish {
  readonly step: number;
  readonly name: string;
  readonly passphrase: string;
}

/** Signs with the key of a witness for the batch as its journal stands now. */
export const signAsWitness = (
  workshop: Workshop,
  keysDir: string,
  { session, head }: HeldBatch,
  { step, name, passphrase }: WitnessWish,
): Done<{ readonly kid: string; readonly signature: string }> => {
  const run = session.state();
  if (run.phase !== 'open') return { ok: false, why: 'No batch is open.' };
  const opened = unlock(workshop, keysDir, { name, passphrase });
  if (!opened.ok) return opened;
  const { kid, key } = opened.value;
  const text = witnessText(run.batch, step, name, head());
  const signature = signBytes(Buffer.from(text), key).toString('base64url');
  return { ok: true, value: { kid, signature } };
};
