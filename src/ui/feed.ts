/**
 * Feeds ink-text-input one key at a time. Its handler closes over the value of its last render, so a
 * key that comes before the one ahead of it was committed would be lost or misplaced; `send` therefore
 * resolves only once the field has rendered and listens anew.
 */
import { EventEmitter } from 'node:events';
import type { Key } from './keys/decoder.ts';
import { asOneLine, type Field, lengthAfter, lengthBefore, maxLength } from './keys/field.ts';

export interface Feed {
  /** What Ink takes for its keyboard: a terminal that only says what `send` puts in. */
  readonly stdin: NodeJS.ReadStream;
  /** Resolves when the field has taken the key; false when no field is there to take it. */
  readonly send: (key: Key, field: Field) => Promise<boolean>;
  /** The field says that it is there, and whether it listens. */
  readonly mounted: (isMounted: boolean) => void;
  readonly committed: (count: number) => void;
  readonly subscribe: (listener: () => void) => () => void;
  /** Renders asked for so far. */
  readonly count: () => number;
}

const left = '\u001b[D';
const right = '\u001b[C';
const backspace = '\u007f';

const characters = (text: string, { text: before }: Field): readonly string[] =>
  before.length + text.length > maxLength ? [] : Array.from(text);

const times = (what: string, count: number): readonly string[] =>
  Array.from({ length: count }, () => what);

/** A key in the few that ink-text-input knows; it counts UTF-16 units and has no Home, End or Delete. */
export const forTextInput = (key: Key, field: Field): readonly string[] => {
  const { text, caret } = field;
  switch (key.kind) {
    case 'text':
      return characters(key.text, field);
    case 'paste':
      return characters(asOneLine(key.text), field);
    case 'left':
      return times(left, lengthBefore(field));
    case 'right':
      return times(right, lengthAfter(field));
    case 'home':
      return times(left, caret);
    case 'end':
      return times(right, text.length - caret);
    case 'backspace':
      return times(backspace, lengthBefore(field));
    case 'delete':
      return [...times(right, lengthAfter(field)), ...times(backspace, lengthAfter(field))];
    case 'ctrl':
      return key.letter === 'u' ? times(backspace, caret) : [];
    default:
      return [];
  }
};

const nothing = (): void => undefined;

/** The little of a terminal's stdin that Ink uses. */
const makeStdin = (take: () => string | null): NodeJS.ReadStream => {
  const stdin = Object.assign(new EventEmitter(), {
    isTTY: true,
    read: take,
    setEncoding: nothing,
    setRawMode: nothing,
    ref: nothing,
    unref: nothing,
    resume: nothing,
    pause: nothing,
  });
  // oxlint-disable-next-line typescript/no-unsafe-type-assertion -- Ink asks for a whole ReadStream and uses these members
  return stdin as unknown as NodeJS.ReadStream;
};

/** For a screen without ink-text-input. */
export const silentStdin = (): NodeJS.ReadStream => makeStdin(() => null);

export const createFeed = (): Feed => {
  const queue: string[] = [];
  const stdin = makeStdin(() => queue.shift() ?? null);
  const listeners = new Set<() => void>();
  let sent = 0;
  let done = -1;
  let isMounted = false;
  let wake = nothing;

  const hasSettled = (): boolean => !isMounted || done >= sent;

  // Lets the field render once more and waits until it listens with what it shows.
  const settle = async (): Promise<boolean> => {
    sent += 1;
    for (const listener of listeners) listener();
    while (!hasSettled()) {
      await new Promise<void>(resolve => {
        wake = resolve;
      });
    }
    return isMounted;
  };

  const sendOne = (sequence: string): Promise<boolean> => {
    queue.push(sequence);
    stdin.emit('readable');
    return settle();
  };

  return {
    stdin,
    send: async (key, field) => {
      if (!isMounted || !(await settle())) return false;
      for (const sequence of forTextInput(key, field)) await sendOne(sequence);
      return true;
    },
    mounted: is => {
      isMounted = is;
      done = -1;
      wake();
    },
    committed: count => {
      done = count;
      wake();
    },
    subscribe: listener => {
      listeners.add(listener);
      return () => listeners.delete(listener);
    },
    count: () => sent,
  };
};
