/** The commands and their options. Each command's module is loaded only when it is called. */
import { Command, Option } from 'commander';
import { meanings } from '../core/dialogue/bench.ts';
import { addendumKinds } from '../core/result/addendum.ts';
import { nearest } from '../core/sheet/nearest.ts';
import { quote } from '../core/sheet/quote.ts';
import { exitStatusText } from './exit-status.ts';
import { version } from './version.ts';

type Finish = (status: number) => void;

const example = `Examples:
  tarebook                                   what is here; start or go on
  tarebook check sheets/orange-tartlets.yaml      is the sheet right?
  tarebook plan sheets/orange-tartlets.yaml --pieces 48
  tarebook run sheets/orange-tartlets.yaml --practice

${exitStatusText}`;

const workshopOption = (): Option =>
  new Option('--workshop <folder>', "the workshop's folder (or TAREBOOK_WORKSHOP)");

const several = (value: string, all: readonly string[] | undefined): readonly string[] => [
  ...(all ?? []),
  value,
];

const withSize = (command: Command): Command =>
  command
    .option('--pieces <count>', 'so many pieces')
    .option('--mass <mass>', 'so much weighed in, like "2.4 kg"')
    .option('--factor <number>', 'so many times the sheet, like 3/2')
    .option(
      '--have <material=mass>',
      'as many whole pieces as it allows, like "citric acid=1.4 kg"; may be repeated',
      several,
    );

const withFace = (command: Command): Command =>
  command
    .option('--plain', 'one question, one line, instead of the screen')
    .option('--ascii', 'only ASCII characters')
    .option('--no-alt-screen', 'keep what was on the terminal above')
    .option('--no-bell', 'no bell when a hold has lasted its least');

// Commander lets an outer option win over the command's own, even an outer default: here what was
// typed nearest wins.
const preferNearest = (program: Command): void => {
  program.hook('preAction', (_, command) => {
    for (const [name, value] of Object.entries(command.opts())) {
      if (command.getOptionValueSource(name) !== 'default') program.setOptionValue(name, value);
    }
  });
};

const addSheetCommands = (program: Command, finish: Finish): void => {
  program
    .command('check')
    .argument('<sheet...>', 'batch sheets')
    .description('find everything wrong with a sheet, each with its place and its mend')
    .option('--json', 'as JSON')
    .action(async (paths: string[], options: { json?: boolean }) => {
      const { check } = await import('./commands/check.ts');
      finish(check(paths, options));
    });
  const sized = (name: string): Command =>
    withSize(program.command(name).argument('<sheet...>', 'batch sheets; SHEET=36 is 36 pieces'));
  sized('plan')
    .description("today's weights: targets, windows, scales; of several sheets what to fetch")
    .option('--json', 'as JSON')
    .addOption(workshopOption())
    .action(async (paths: string[], _: object, command: Command) => {
      const { plan } = await import('./commands/plan.ts');
      finish(plan(paths, command.optsWithGlobals()));
    });
  sized('print')
    .description('batch sheets to fill in by hand, for the day the computer is dead')
    .requiredOption('--to <path>', 'the HTML file to write; - for standard output')
    .addOption(workshopOption())
    .action(async (paths: string[], _: object, command: Command) => {
      const { print } = await import('./commands/print.ts');
      finish(print(paths, command.optsWithGlobals()));
    });
};

const addRemedyCommand = (program: Command, finish: Finish): void => {
  withSize(program.command('remedy').argument('<sheet>', 'a batch sheet'))
    .description('what can still be done about an over-pour, for a batch kept on paper')
    .option('--poured <line=mass>', 'what is in of a line, like 2=312.0; may be repeated', several)
    .option('--closed <phase>', 'a phase whose vessel is emptied; may be repeated', several)
    .option('--json', 'as JSON')
    .addOption(workshopOption())
    .action(async (path: string, _: object, command: Command) => {
      const { remedy } = await import('./commands/remedy.ts');
      finish(remedy(path, command.optsWithGlobals()));
    });
};

const addBatchCommands = (program: Command, finish: Finish): void => {
  withFace(withSize(program.command('run').argument('<sheet>', 'a batch sheet')))
    .description('make a batch: weigh it in step by step, close it, sign its record')
    .option('--by <name>', 'who makes it')
    .option('--practice', 'for practice: marked as such, never among the real ones')
    .addOption(workshopOption())
    .action(async (path: string, _: object, command: Command) => {
      const { run } = await import('./commands/run.ts');
      finish(await run(path, command.optsWithGlobals()));
    });
  withFace(program.command('resume').argument('<batch>', 'its number, like TRT-2027-001'))
    .description('go on with a batch at the very step at which it was left')
    .option('--take-over <reason>', 'set aside the lock that another computer left')
    .addOption(workshopOption())
    .action(async (batch: string, _: object, command: Command) => {
      const { resume } = await import('./commands/resume.ts');
      finish(await resume(batch, command.optsWithGlobals()));
    });
};

const addRecordCommands = (program: Command, finish: Finish): void => {
  program
    .command('sign')
    .argument('<batch>', 'its number')
    .description('sign the record of a closed batch')
    .requiredOption('--as <meaning>', `${meanings.slice(0, -1).join(', ')} or ${meanings.at(-1)}`)
    .option('--by <name>', 'who signs')
    .addOption(workshopOption())
    .action(async (batch: string, _: object, command: Command) => {
      const { sign } = await import('./commands/sign.ts');
      finish(await sign(batch, command.optsWithGlobals()));
    });
  program
    .command('addend')
    .argument('<batch>', 'its number')
    .description('add to a closed batch, signed: packing, a complaint, a correction …')
    .addOption(
      new Option('--kind <kind>', 'what is added').choices(addendumKinds).makeOptionMandatory(),
    )
    .requiredOption('--text <text>', 'what there is to say')
    .option('--deviation <number>', 'the deviation that an assessment is of')
    .option('--by <name>', 'who adds and signs it')
    .addOption(workshopOption())
    .action(async (batch: string, _: object, command: Command) => {
      const { addend } = await import('./commands/addend.ts');
      finish(await addend(batch, command.optsWithGlobals()));
    });
  program
    .command('verify')
    .argument(
      '[batch or folder...]',
      'batches by number or folder, or workshops; the one in use if none is named',
    )
    .description('prove records from their bytes and keys, and work everything out again')
    .option('--json', 'as JSON')
    .addOption(workshopOption())
    .action(async (named: string[], _: object, command: Command) => {
      const { verify } = await import('./commands/verify.ts');
      finish(await verify(named, command.optsWithGlobals()));
    });
  program
    .command('export')
    .argument('<batch>', 'its number')
    .description('hand out a record: a printable page, a table, or the record itself')
    .addOption(
      new Option('--as <form>', 'html, csv or json')
        .choices(['html', 'csv', 'json'])
        .makeOptionMandatory(),
    )
    .requiredOption('--to <path>', 'the file to write; - for standard output')
    .addOption(workshopOption())
    .action(async (batch: string, _: object, command: Command) => {
      const { exportTo } = await import('./commands/export.ts');
      finish(exportTo(batch, command.optsWithGlobals()));
    });
};

const addScaleCommands = (program: Command, finish: Finish): void => {
  const scales = program
    .command('scales')
    .description('the scales in use: enter, list, check, retire');
  const entering = (command: Command): Command =>
    command.option('--by <name>', 'who enters it').addOption(workshopOption());
  scales
    .command('list', { isDefault: true })
    .description('the scales in use, their least loads and last checks')
    .option('--json', 'as JSON')
    .addOption(workshopOption())
    .action(async (_: object, command: Command) => {
      const { listScales } = await import('./commands/scales.ts');
      finish(listScales(command.optsWithGlobals()));
    });
  entering(scales.command('add').argument('<scale>', 'like "big 10 kg x 0.1 g"'))
    .description('enter a scale, or what is known of it now')
    .option('--interval <mass>', 'its verification interval e, like "1 g"')
    .addOption(
      new Option('--class <class>', 'its accuracy class').choices(['I', 'II', 'III', 'IIII']),
    )
    .option('--least <mass>', 'the least load of your own, like "20 g"')
    .action(async (text: string, _: object, command: Command) => {
      const { addScale } = await import('./commands/scales.ts');
      finish(addScale(text, command.optsWithGlobals()));
    });
  entering(scales.command('check').argument('<name>', 'of the scale'))
    .description('judge it by test masses, and measure how well it repeats')
    .option(
      '--mass <masses=reading>',
      'test masses with their class, and what was shown: "500 g F2=499.9", "500 g F2+200 g F2=699.9"; may be repeated',
      several,
    )
    .option('--repeat <readings>', 'ten readings or more of one mass: "100.0 100.1 …"')
    .action(async (name: string, _: object, command: Command) => {
      const { checkScales } = await import('./commands/scales.ts');
      finish(checkScales(name, command.optsWithGlobals()));
    });
  entering(scales.command('retire').argument('<name>', 'of the scale'))
    .description('take it out of use: nothing is planned with it any more')
    .requiredOption('--reason <text>', 'why')
    .action(async (name: string, _: object, command: Command) => {
      const { retire } = await import('./commands/scales.ts');
      finish(retire(name, command.optsWithGlobals()));
    });
};

const unknownCommand = (program: Command, word: string): never => {
  const near = nearest(
    word,
    program.commands.map(command => command.name()),
  );
  const hint = near === undefined ? 'tarebook --help lists the commands.' : `Did you mean ${near}?`;
  return program.error(`error: there is no command ${quote(word)}. ${hint}`);
};

/** The whole command line; `finish` takes the exit status of the command that ran. */
export const createProgram = (finish: Finish): Command => {
  const program = new Command('tarebook')
    .description(
      'Walks a small workshop through a batch: weights from a sheet, checked readings, a signed record.',
    )
    .version(version, '-V, --version', 'print the version')
    .helpOption('-h, --help', 'print this help')
    .addHelpText('after', `\n${example}`)
    .exitOverride()
    .enablePositionalOptions()
    .configureHelp({ helpWidth: 80, minWidthToWrap: 20 })
    .usage('[options] [command]')
    .argument('[word...]')
    .addOption(workshopOption());
  withFace(program).action(async ([word]: string[], options: object) => {
    if (word !== undefined) return unknownCommand(program, word);
    const { home } = await import('./commands/home.ts');
    finish(await home(options));
  });
  preferNearest(program);
  addSheetCommands(program, finish);
  addRemedyCommand(program, finish);
  addBatchCommands(program, finish);
  addRecordCommands(program, finish);
  addScaleCommands(program, finish);
  return program;
};
