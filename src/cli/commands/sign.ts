import { type Meaning, meanings } from '../../core/dialogue/bench.ts';
import { readName } from '../../core/run/decide-batch.ts';
import { enrol } from '../../workshop/enrol.ts';
import { keyHere, signBatch } from '../../workshop/sign-batch.ts';
import type { Workshop } from '../../workshop/workshop.ts';
import { exitStatus } from '../exit-status.ts';
import { keysFolder } from '../places.ts';
import { preference } from '../preferences.ts';
import { Stop } from '../stop.ts';
import {
  batchThere,
  isPractice,
  orStop,
  theWorkshop,
  type WorkshopOptions,
} from '../the-workshop.ts';

interface SignOptions extends WorkshopOptions {
  readonly as: string;
  readonly by?: string;
}

type Ask = (question: string, isSecret: boolean) => Promise<string>;

const asker = async (): Promise<{ readonly ask: Ask; readonly close: () => void }> => {
  const { stdioLines } = await import('../../plain/stdio-lines.ts');
  const lines = stdioLines({ input: process.stdin, output: process.stdout });
  const ask: Ask = async (question, isSecret) => {
    lines.print(`${question}\n> `);
    const line = await lines.next(isSecret);
    if (line === undefined) throw new Stop(exitStatus.unfinished, 'Left. Nothing was signed.');
    return line;
  };
  return { ask, close: lines.close };
};

const readMeaning = (text: string): Meaning => {
  const meaning = meanings.find(each => each === text || each === `${text} by`);
  if (meaning !== undefined) return meaning;
  throw new Stop(exitStatus.usage, `--as takes ${meanings.join(', ')}, not ${text}.`);
};

const whoSigns = async (by: string | undefined, ask: Ask): Promise<string> => {
  const typed = by ?? preference('person') ?? (await ask('Who signs? Type your name.', false));
  const name = readName(typed);
  if (name === undefined) throw new Stop(exitStatus.usage, `${typed} is not a name.`);
  return name;
};

const newKey = async (workshop: Workshop, name: string, ask: Ask): Promise<string> => {
  const passphrase = await ask(
    `${name} has no key here. Choose a passphrase, eight characters at least.`,
    true,
  );
  if (passphrase.length < 8) throw new Stop(exitStatus.usage, 'Eight characters at least.');
  if ((await ask('Type it once more.', true)) !== passphrase)
    throw new Stop(exitStatus.usage, 'The two were not the same.');
  orStop(enrol(workshop, keysFolder(), name, passphrase));
  return passphrase;
};

/** Signs the record of a closed batch, finishing its closing first where that was interrupted. */
export const sign = async (batch: string, options: SignOptions): Promise<number> => {
  const meaning = readMeaning(options.as);
  const workshop = theWorkshop(options, isPractice(batch));
  batchThere(workshop, batch);
  const { ask, close } = await asker();
  try {
    const name = await whoSigns(options.by, ask);
    const key = orStop(keyHere(workshop, keysFolder(), name));
    const passphrase =
      key === undefined
        ? await newKey(workshop, name, ask)
        : await ask(`Sign ${batch} as ${meaning} ${name}: type your passphrase.`, true);
    const signed = signBatch(workshop, keysFolder(), { batch, name, passphrase, meaning });
    if (!signed.ok) throw new Stop(exitStatus.doesNotHold, signed.why);
    process.stdout.write(`Signed: ${signed.value}\n`);
    return exitStatus.good;
  } finally {
    close();
  }
};
