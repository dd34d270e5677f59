import { type ChildProcess, spawn } from 'node:child_process';
import { join } from 'node:path';
import { createInterface } from 'node:readline';
import { buildSync } from 'esbuild';
import { tempDir } from './temp-dir.ts';

/** Bundles a program of the tests and answers where it is. */
export const buildChild = (entry: string): string => {
  const outfile = join(tempDir(), 'child.cjs');
  buildSync({
    entryPoints: [entry],
    outfile,
    bundle: true,
    format: 'cjs',
    platform: 'node',
    target: 'node20',
  });
  return outfile;
};

export interface Child {
  readonly process: ChildProcess;
  /** The next line that it prints; undefined when it has ended. */
  readonly nextLine: () => Promise<string | undefined>;
  readonly ended: Promise<void>;
}

export const startChild = (program: string, ...args: readonly string[]): Child => {
  const child = spawn(process.execPath, [program, ...args], { stdio: ['pipe', 'pipe', 'inherit'] });
  const lines = createInterface({ input: child.stdout })[Symbol.asyncIterator]();
  return {
    process: child,
    nextLine: async () => {
      const { value, done } = await lines.next();
      return done === true ? undefined : value;
    },
    ended: new Promise(resolve => {
      child.on('exit', () => resolve());
    }),
  };
};
