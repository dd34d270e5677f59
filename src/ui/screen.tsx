import type { Conversation, Ending, Question } from '../core/dialogue/conversation.ts';
import type { Instant } from '../core/time/instant.ts';
import { createFeed } from './feed.ts';
import { createScreenStore } from './screen-store.ts';
import { ScreenView } from './screen-view.tsx';
import {
  clock,
  onTerminal,
  type Stage,
  type StopSignal,
  sizeOf,
  type TerminalOptions,
} from './terminal.ts';
import { lastTop } from './view/help.ts';
import { paperOf } from './view/paper.ts';

export interface ScreenOptions extends TerminalOptions {
  readonly isAscii: boolean;
  readonly hasColour: boolean;
  /** Rings once when a hold has lasted its least. */
  readonly rings: boolean;
  readonly now: () => Instant;
}

/** How the screen came to its end. Its last sentence was printed already. */
export type ScreenEnd =
  | { readonly kind: 'ended'; readonly ending: Ending }
  | { readonly kind: 'interrupted'; readonly ending: Ending }
  | { readonly kind: 'signal'; readonly signal: StopSignal; readonly ending: Ending }
  | { readonly kind: 'fault'; readonly fault: unknown; readonly ending: Ending };

const faultEnding = (conversation: Conversation): Ending => {
  const run = conversation.run();
  const start = 'Tarebook stopped by a fault of its own.';
  return {
    status: 4,
    text:
      run.phase === 'unbegun'
        ? `${start} Nothing was begun.`
        : `${start}\nAll that was accepted is on disk. \`tarebook resume ${run.batch}\` goes on.`,
  };
};

// Leaving may fail for the same reason that stopped the screen; the sentence must come all the same.
const leaveAfterFault = (conversation: Conversation): Ending => {
  try {
    conversation.leave();
  } catch {
    // The journal holds what was accepted.
  }
  return faultEnding(conversation);
};

const stageFor =
  (conversation: Conversation, options: ScreenOptions) =>
  (finish: (end: ScreenEnd) => void): Stage<ScreenEnd> => {
    const feed = createFeed();
    const onFault = (fault: unknown): ScreenEnd => ({
      kind: 'fault',
      fault,
      ending: leaveAfterFault(conversation),
    });
    const store = createScreenStore(conversation, {
      size: sizeOf(options.stdout),
      clock,
      send: feed.send,
      lastHelpTop: state => lastTop(state, paperOf(state.size, options.isAscii, options.now())),
      onInterrupt: () => finish({ kind: 'interrupted', ending: conversation.leave() }),
      onHeard: () => {
        const ending = conversation.ending();
        if (ending !== undefined) finish({ kind: 'ended', ending });
      },
      onFault: fault => finish(onFault(fault)),
    });
    let shown: Question | undefined;
    const looks = {
      isAscii: options.isAscii,
      hasColour: options.hasColour,
      now: options.now,
      ring: () => options.rings && options.stdout.write('\u0007'),
    };
    return {
      element: (
        <ScreenView
          store={store}
          feed={feed}
          looks={looks}
          onShown={question => {
            shown = question;
          }}
        />
      ),
      inkStdin: feed.stdin,
      onKeys: store.take,
      onResize: store.resize,
      onRender: () => shown !== undefined && store.painted(shown),
      onSignal: signal => ({ kind: 'signal', signal, ending: conversation.leave() }),
      onFault,
    };
  };

/**
 * Walks a batch on the whole terminal. Both ends must be terminals. Afterwards the terminal is as it
 * was, with the sentence that says how to go on.
 */
export const startScreen = async (
  conversation: Conversation,
  options: ScreenOptions,
): Promise<ScreenEnd> => {
  const end = await onTerminal(options, stageFor(conversation, options));
  options.stdout.write(`${end.ending.text}\n`);
  return end;
};
