import { CommanderError } from 'commander';
import { harmlessLines } from '../core/dialogue/harmless.ts';
import { exitStatus } from './exit-status.ts';
import { createProgram } from './program.ts';
import { Stop } from './stop.ts';

const statusOf = (error: unknown): number => {
  if (error instanceof CommanderError)
    return error.exitCode === 0 ? exitStatus.good : exitStatus.usage;
  if (error instanceof Stop) {
    process.stderr.write(`${harmlessLines(error.message)}\n`);
    return error.status;
  }
  const what = error instanceof Error ? (error.stack ?? error.message) : String(error);
  process.stderr.write(
    `Tarebook stopped by a fault of its own. What was accepted is on disk.\n${what}\n`,
  );
  return exitStatus.ourFault;
};

// A reader that went away, as in `tarebook plan … | head`, is no fault.
process.stdout.on('error', () => process.exit(exitStatus.good));

const main = async (): Promise<void> => {
  // Until it is known better: nothing may end as good by being forgotten.
  process.exitCode = exitStatus.ourFault;
  try {
    await createProgram(status => {
      process.exitCode = status;
    }).parseAsync();
  } catch (error) {
    process.exitCode = statusOf(error);
  }
};

void main();
