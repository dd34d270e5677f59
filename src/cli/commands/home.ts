import { type HomeChoice, type HomeModel, homeEntries } from '../../core/dialogue/home.ts';
import { exitStatus } from '../exit-status.ts';
import { type FaceOptions, screenOptions, signalStatus, undoCi } from '../face.ts';
import { homeModel } from '../home-model.ts';
import { isTerminal, wantsPlain } from '../terminal.ts';
import type { WorkshopOptions } from '../the-workshop.ts';

interface HomeOptions extends WorkshopOptions, FaceOptions {}

const lineOf = ({ title, detail }: { readonly title: string; readonly detail: string }): string =>
  detail === '' ? `  ${title}` : `  ${title}  (${detail})`;

// Without a terminal there is nothing to choose with: the list is printed.
const printed = (model: HomeModel): string => {
  const entries = homeEntries(model, false);
  const sections = [...new Set(entries.map(entry => entry.section))];
  return sections
    .flatMap(section => [
      section,
      ...entries.filter(entry => entry.section === section).map(lineOf),
    ])
    .join('\n');
};

const carryOut = async (choice: HomeChoice, options: HomeOptions): Promise<number> => {
  switch (choice.kind) {
    case 'run': {
      const { run } = await import('./run.ts');
      return run(choice.path, { ...options, practice: choice.practice });
    }
    case 'resume': {
      const { resume } = await import('./resume.ts');
      return resume(choice.batch, options);
    }
    case 'show': {
      const { verify } = await import('./verify.ts');
      const status = await verify([choice.batch], options);
      process.stdout.write(
        `\`tarebook export ${choice.batch} --as html --to ${choice.batch}.html\` makes its page.\n`,
      );
      return status;
    }
    case 'leave':
      return exitStatus.good;
  }
};

/** What is here: sheets, batches in hand, closed records; on a terminal one of them can be chosen. */
export const home = async (options: HomeOptions): Promise<number> => {
  const model = homeModel(options);
  if (!isTerminal() || wantsPlain(options.plain)) {
    process.stdout.write(`${printed(model)}\n`);
    return exitStatus.good;
  }
  undoCi();
  const { startHome } = await import('../../ui/home.tsx');
  const end = await startHome(model, screenOptions(options));
  switch (end.kind) {
    case 'chosen':
      return carryOut(end.choice, options);
    case 'interrupted':
      return exitStatus.interrupted;
    case 'signal':
      return signalStatus(end.signal);
    case 'fault':
      throw end.fault;
  }
};
