/**
 * The terminal itself: alternate screen, raw keyboard, resizes, signals. It is put back as it was on
 * every way out.
 */
import { render } from 'ink';
import { createElement, type ReactNode } from 'react';
import { Boundary } from './boundary.tsx';
import { decodeKeys, flushKeys, freshDecoder, type Key, patience } from './keys/decoder.ts';
import type { Size } from './screen-store.ts';

export interface TerminalOptions {
  readonly stdin: NodeJS.ReadStream;
  readonly stdout: NodeJS.WriteStream;
  readonly usesAlternateScreen: boolean;
}

const stopSignals = ['SIGINT', 'SIGTERM', 'SIGHUP'] as const;
export type StopSignal = (typeof stopSignals)[number];

/** What is played on a terminal. */
export interface Stage<End> {
  readonly element: ReactNode;
  /** What Ink takes for its keyboard; the real one is read here. */
  readonly inkStdin: NodeJS.ReadStream;
  /** Keys of one chunk and when it came, in milliseconds of `clock`. */
  readonly onKeys: (keys: readonly Key[], at: number) => void;
  readonly onResize: (size: Size) => void;
  readonly onRender: () => void;
  readonly onSignal: (signal: StopSignal) => End;
  readonly onFault: (fault: unknown) => End;
}

/** Monotonic milliseconds. */
export const clock = (): number => performance.now();

export const sizeOf = ({ columns, rows }: NodeJS.WriteStream): Size => ({
  columns: columns || 80,
  rows: rows || 24,
});

const enterAlternate = '\u001b[?1049h\u001b[2J\u001b[H';
const leaveAlternate = '\u001b[?1049l';
const pasteOn = '\u001b[?2004h';
const pasteOff = '\u001b[?2004l';
const showCursor = '\u001b[?25h';
const clearScreen = '\u001b[2J\u001b[H';
const clearScrollback = '\u001b[3J';

/** Ink wipes the scrollback when a window gets shorter; this stdout does not pass that on. */
const keepScrollback = (stdout: NodeJS.WriteStream): NodeJS.WriteStream =>
  new Proxy(stdout, {
    get: (target, property) => {
      const value: unknown = Reflect.get(target, property, target);
      if (typeof value !== 'function') return value;
      if (property !== 'write') return value.bind(target);
      return (chunk: unknown, ...rest: unknown[]): unknown =>
        Reflect.apply(value, target, [
          typeof chunk === 'string' ? chunk.replaceAll(clearScrollback, '') : chunk,
          ...rest,
        ]);
    },
  });

/** Reads keys from a raw keyboard; answers how to stop. */
const readKeys = (stdin: NodeJS.ReadStream, onKeys: Stage<unknown>['onKeys']): (() => void) => {
  let state = freshDecoder;
  let timer: NodeJS.Timeout | undefined;
  const take = (decoded: ReturnType<typeof flushKeys>, at: number): void => {
    state = decoded.state;
    const wait = patience(state);
    if (wait !== undefined) timer = setTimeout(() => take(flushKeys(state), clock()), wait);
    if (decoded.keys.length > 0) onKeys(decoded.keys, at);
  };
  const onData = (chunk: string): void => {
    clearTimeout(timer);
    take(decodeKeys(state, chunk), clock());
  };
  stdin.setEncoding('utf8');
  stdin.setRawMode(true);
  stdin.on('data', onData);
  stdin.resume();
  return () => {
    clearTimeout(timer);
    stdin.off('data', onData);
    stdin.pause();
  };
};

/** After a hang-up there is no terminal left to put back. */
const tryTo = (act: () => void): void => {
  try {
    act();
  } catch {
    // Nothing can be shown any more, and leaving must go on.
  }
};

const putBack = ({ stdin, stdout, usesAlternateScreen }: TerminalOptions): void => {
  tryTo(() => stdin.setRawMode(false));
  const modes = pasteOff + showCursor + (usesAlternateScreen ? leaveAlternate : '');
  tryTo(() => stdout.write(modes));
};

/** Listens for everything that ends a program from outside; answers how to stop listening. */
const watchWaysOut = <End>(
  options: TerminalOptions,
  stage: Stage<End>,
  finish: (end: End) => void,
): (() => void) => {
  const onExit = (): void => putBack(options);
  const onFault = (fault: unknown): void => finish(stage.onFault(fault));
  const onHangUp = (): void => finish(stage.onSignal('SIGHUP'));
  const handlers = stopSignals.map(
    signal => [signal, (): void => finish(stage.onSignal(signal))] as const,
  );
  for (const [signal, handler] of handlers) process.on(signal, handler);
  process.on('exit', onExit);
  process.on('uncaughtException', onFault);
  process.on('unhandledRejection', onFault);
  options.stdin.on('end', onHangUp);
  options.stdout.on('error', onHangUp);
  return () => {
    // The error listener of stdout stays: what is written to put the terminal back may fail yet.
    // Not within the signal itself: Ink's own listener comes next, would find itself alone and kill.
    setImmediate(() => {
      for (const [signal, handler] of handlers) process.off(signal, handler);
    });
    process.off('exit', onExit);
    process.off('uncaughtException', onFault);
    process.off('unhandledRejection', onFault);
    options.stdin.off('end', onHangUp);
  };
};

/** Plays a stage until it is finished; resolves when the terminal is as it was before. */
export const onTerminal = <End>(
  options: TerminalOptions,
  stageFor: (finish: (end: End) => void) => Stage<End>,
): Promise<End> =>
  new Promise(resolve => {
    const { stdin, stdout, usesAlternateScreen } = options;
    const waysToStop: (() => void)[] = [];
    let isOver = false;
    const finish = (end: End): void => {
      if (isOver) return;
      isOver = true;
      for (const stop of waysToStop.toReversed()) tryTo(stop);
      putBack(options);
      resolve(end);
    };
    const stage = stageFor(finish);
    const onFault = (fault: unknown): void => finish(stage.onFault(fault));
    const element = createElement(Boundary, { onFault }, stage.element);
    waysToStop.push(watchWaysOut(options, stage, finish));
    stdout.write((usesAlternateScreen ? enterAlternate : '') + pasteOn);
    // Before Ink listens, so that Ink lays out the new size only.
    const onResize = (): void => {
      if (usesAlternateScreen) stdout.write(clearScreen);
      stage.onResize(sizeOf(stdout));
      instance.rerender(element);
    };
    stdout.on('resize', onResize);
    const instance = render(element, {
      stdout: keepScrollback(stdout),
      stdin: stage.inkStdin,
      exitOnCtrlC: false,
      patchConsole: false,
      maxFps: 30,
      onRender: stage.onRender,
    });
    waysToStop.push(
      () => instance.unmount(),
      () => stdout.off('resize', onResize),
      readKeys(stdin, stage.onKeys),
    );
  });
