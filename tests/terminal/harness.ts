/** A program in a real pseudo-terminal, and the screen that its bytes paint. */
import { createRequire } from 'node:module';
import { type IPty, spawn } from '@lydell/node-pty';
import type { Terminal as ScreenTerminal } from '@xterm/headless';

// The package is CommonJS without names that an import could see.
const { Terminal } = createRequire(import.meta.url)('@xterm/headless') as {
  Terminal: typeof ScreenTerminal;
};

export interface Launch {
  /** What node runs, with its arguments. */
  readonly args: readonly string[];
  readonly columns?: number;
  readonly rows?: number;
  readonly cwd?: string;
  readonly env?: Readonly<Record<string, string>>;
}

interface Exit {
  readonly exitCode: number;
  readonly signal: number | undefined;
}

export interface Running {
  readonly pid: number;
  /** The rows of the screen, without blanks at their ends. */
  readonly screen: () => string;
  /** Every byte that the program wrote. */
  readonly bytes: () => string;
  /** Where the cursor stands, from 0. */
  readonly cursor: () => { readonly x: number; readonly y: number };
  /** Waits until the screen contains the text; fails with the screen when it does not in time. */
  readonly waitFor: (text: string | RegExp, milliseconds?: number) => Promise<string>;
  /** Writes all at once, as a device or a paste does. */
  readonly send: (text: string) => void;
  /** Writes character by character with a gap in milliseconds. */
  readonly type: (text: string, gap?: number) => Promise<void>;
  readonly resize: (columns: number, rows: number) => void;
  readonly signal: (name: string) => void;
  /** Resolves when the program has ended. */
  readonly exit: Promise<Exit>;
}

export const pause = (milliseconds: number): Promise<void> =>
  new Promise(resolve => {
    setTimeout(resolve, milliseconds);
  });

const textOf = (terminal: ScreenTerminal): string => {
  const buffer = terminal.buffer.active;
  return Array.from(
    { length: terminal.rows },
    (_, row) => buffer.getLine(buffer.viewportY + row)?.translateToString(true) ?? '',
  ).join('\n');
};

const environment = (more: Readonly<Record<string, string>>): Record<string, string> => {
  const { CI: _ci, CONTINUOUS_INTEGRATION: _integration, NO_COLOR: _colour, ...rest } = process.env;
  const own = Object.entries({
    ...rest,
    TERM: 'xterm-256color',
    LANG: 'C.UTF-8',
    LC_ALL: 'C.UTF-8',
    ...more,
  });
  return Object.fromEntries(
    own.flatMap(([name, value]) => (value === undefined ? [] : [[name, value]])),
  );
};

const watchExit = (pty: IPty): Promise<Exit> =>
  new Promise(resolve => {
    pty.onExit(({ exitCode, signal }) => resolve({ exitCode, signal }));
  });

const contains = (screen: string, text: string | RegExp): boolean =>
  typeof text === 'string' ? screen.includes(text) : text.test(screen);

/** Starts node in a pseudo-terminal of 80 × 24, unless said otherwise, with CI taken out of its environment. */
export const launch = ({ args, columns = 80, rows = 24, cwd, env = {} }: Launch): Running => {
  const terminal = new Terminal({ cols: columns, rows, allowProposedApi: true, scrollback: 1000 });
  const pty = spawn(process.execPath, [...args], {
    name: 'xterm-256color',
    cols: columns,
    rows,
    cwd: cwd ?? process.cwd(),
    env: environment(env),
  });
  const exit = watchExit(pty);
  let bytes = '';
  pty.onData(data => {
    bytes += data;
    terminal.write(data);
  });
  terminal.onData(answer => pty.write(answer));

  const waitFor: Running['waitFor'] = async (text, milliseconds = 10_000) => {
    const end = Date.now() + milliseconds;
    while (!contains(textOf(terminal), text)) {
      if (Date.now() > end) throw new Error(`never saw ${String(text)}:\n${textOf(terminal)}`);
      await pause(15);
    }
    return textOf(terminal);
  };

  return {
    pid: pty.pid,
    screen: () => textOf(terminal),
    bytes: () => bytes,
    cursor: () => ({ x: terminal.buffer.active.cursorX, y: terminal.buffer.active.cursorY }),
    waitFor,
    send: text => pty.write(text),
    type: async (text, gap = 20) => {
      for (const character of text) {
        pty.write(character);
        await pause(gap);
      }
    },
    resize: (newColumns, newRows) => {
      terminal.resize(newColumns, newRows);
      pty.resize(newColumns, newRows);
    },
    signal: name => pty.kill(name),
    exit,
  };
};
