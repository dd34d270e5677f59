/** Who signs on the command line, and with which passphrase; on a terminal and on a pipe. */
import { readName } from '../core/run/decide-batch.ts';
import { enrol } from '../workshop/enrol.ts';
import { keyHere } from '../workshop/signer-key.ts';
import type { Workshop } from '../workshop/workshop.ts';
import { exitStatus } from './exit-status.ts';
import { keysFolder } from './places.ts';
import { preference } from './preferences.ts';
import { Stop, usage } from './stop.ts';
import { orStop } from './the-workshop.ts';

type Ask = (question: string, isSecret: boolean) => Promise<string>;

const asker = async (): Promise<{ readonly ask: Ask; readonly close: () => void }> => {
  const { stdioLines } = await import('../plain/stdio-lines.ts');
  const lines = stdioLines({ input: process.stdin, output: process.stdout });
  const ask: Ask = async (question, isSecret) => {
    lines.print(`${question}\n> `);
    const line = await lines.next(isSecret);
    if (line === undefined) throw new Stop(exitStatus.unfinished, 'Left. Nothing was signed.');
    return line;
  };
  return { ask, close: lines.close };
};

const whoSigns = async (by: string | undefined, ask: Ask): Promise<string> => {
  const typed = by ?? preference('person') ?? (await ask('Who signs? Type your name.', false));
  return readName(typed) ?? usage(`${typed} is not a name.`);
};

const newKey = async (workshop: Workshop, name: string, ask: Ask): Promise<string> => {
  const passphrase = await ask(
    `${name} has no key here. Choose a passphrase, eight characters at least.`,
    true,
  );
  if (passphrase.length < 8) return usage('Eight characters at least.');
  if ((await ask('Type it once more.', true)) !== passphrase)
    return usage('The two were not the same.');
  orStop(enrol(workshop, keysFolder(), name, passphrase));
  return passphrase;
};

export interface Signer {
  readonly name: string;
  readonly passphrase: string;
}

/** Asks what is needed to sign; `what` follows on the word Sign. A person without a key here gets one. */
export const askSigner = async (
  workshop: Workshop,
  by: string | undefined,
  what: (name: string) => string,
): Promise<Signer> => {
  const { ask, close } = await asker();
  try {
    const name = await whoSigns(by, ask);
    const key = orStop(keyHere(workshop, keysFolder(), name));
    const passphrase =
      key === undefined
        ? await newKey(workshop, name, ask)
        : await ask(`Sign ${what(name)}: type your passphrase.`, true);
    return { name, passphrase };
  } finally {
    close();
  }
};
