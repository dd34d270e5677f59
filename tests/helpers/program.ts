/** The built program as a child, in a home of its own. */
import { type ChildProcessWithoutNullStreams, spawn, spawnSync } from 'node:child_process';
import { readdirSync } from 'node:fs';
import { join, resolve } from 'node:path';
import { tempDir } from './temp-dir.ts';

export const program = resolve('dist/tarebook.cjs');

export interface Ended {
  readonly status: number | null;
  readonly stdout: string;
  readonly stderr: string;
}

export interface Started {
  readonly process: ChildProcessWithoutNullStreams;
  /** Types one line. */
  readonly type: (line: string) => void;
  /** Waits until the program has printed the text since the last wait. */
  readonly waitFor: (text: string) => Promise<void>;
  readonly ended: Promise<Ended>;
}

export interface Home {
  readonly folder: string;
  readonly env: Readonly<Record<string, string>>;
  /** Runs the program to its end; the lines are what is typed, then the input ends. */
  readonly run: (args: readonly string[], lines?: readonly string[]) => Ended;
  readonly start: (args: readonly string[]) => Started;
}

const typed = (lines: readonly string[]): string => lines.map(line => `${line}\n`).join('');

const nothing = (): void => {};

const watch = (child: ChildProcessWithoutNullStreams): Started => {
  let [stdout, stderr, seen] = ['', '', 0];
  let look = nothing;
  child.stdout.setEncoding('utf8').on('data', (text: string) => {
    stdout += text;
    look();
  });
  child.stderr.setEncoding('utf8').on('data', (text: string) => {
    stderr += text;
  });
  return {
    process: child,
    type: line => void child.stdin.write(`${line}\n`),
    waitFor: text =>
      new Promise((done, fail) => {
        const late = setTimeout(
          () => fail(new Error(`never saw ${text}:\n${stdout}${stderr}`)),
          10_000,
        );
        look = () => {
          const at = stdout.indexOf(text, seen);
          if (at < 0) return;
          seen = at + text.length;
          clearTimeout(late);
          done();
        };
        look();
      }),
    ended: new Promise(done => {
      child.on('close', status => done({ status, stdout, stderr }));
    }),
  };
};

/** A new empty home; nothing of the caller's environment but the path goes in. */
export const newHome = (more: Readonly<Record<string, string>> = {}): Home => {
  const folder = tempDir();
  const env = {
    PATH: process.env['PATH'] ?? '',
    HOME: folder,
    LC_ALL: 'C.UTF-8',
    ...more,
  };
  return {
    folder,
    env,
    run: (args, lines = []) =>
      spawnSync(process.execPath, [program, ...args], {
        env,
        input: typed(lines),
        encoding: 'utf8',
      }),
    start: args => watch(spawn(process.execPath, [program, ...args], { env })),
  };
};

export const workshopOf = ({ folder }: Home): string =>
  join(folder, '.local', 'share', 'tarebook', 'workshop');

/** The folder of the only practice batch. */
export const practiceBatch = (home: Home): string => {
  const batches = join(workshopOf(home), 'practice', 'batches');
  const [batch, ...others] = readdirSync(batches);
  if (batch === undefined || others.length > 0) throw new Error('not one batch');
  return join(batches, batch);
};
