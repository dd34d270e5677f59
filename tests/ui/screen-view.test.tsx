import { cleanup, render } from 'ink-testing-library';
import { afterEach, expect, test } from 'vitest';
import type { Question } from '../../src/core/dialogue/conversation.ts';
import { createFeed } from '../../src/ui/feed.ts';
import { decodeKeys, freshDecoder } from '../../src/ui/keys/decoder.ts';
import { createScreenStore } from '../../src/ui/screen-store.ts';
import { ScreenView } from '../../src/ui/screen-view.tsx';
import { cellWidth } from '../../src/ui/view/cells.ts';
import {
  type FakeConversation,
  fakeConversation,
  questionOf,
} from '../helpers/fake-conversation.ts';
import { handMadeRun } from '../helpers/hand-made-run.ts';
import { cedarDomes } from '../helpers/sheet.ts';

afterEach(cleanup);

const now = { epochMs: 0, offset: 0 };

const until = async (isTrue: () => boolean): Promise<void> => {
  for (let left = 200; left > 0 && !isTrue(); left -= 1) {
    await new Promise(resolve => {
      setTimeout(resolve, 5);
    });
  }
  expect(isTrue()).toBe(true);
};

// The library's terminal has 100 columns, so the sizes stay below that.
const show = (conversation: FakeConversation, columns = 80, rows = 24) => {
  const feed = createFeed();
  const shown: Question[] = [];
  const store = createScreenStore(conversation, {
    size: { columns, rows },
    clock: () => 0,
    send: feed.send,
    lastHelpTop: () => 12,
    onInterrupt: () => undefined,
    onHeard: () => undefined,
    onFault: fault => {
      throw fault;
    },
  });
  const looks = { isAscii: false, hasColour: false, now: () => now, ring: () => undefined };
  // ink-testing-library brings a keyboard of its own; ours must be the one that the field hears.
  const { lastFrame, stdin } = render(
    <ScreenView store={store} feed={feed} looks={looks} onShown={each => shown.push(each)} />,
  );
  feed.stdin.on('readable', () => {
    for (let key: unknown = feed.stdin.read(); typeof key === 'string'; key = feed.stdin.read()) {
      stdin.write(key);
    }
  });
  return {
    store,
    shown,
    frame: (): string => (lastFrame() ?? '').replaceAll('\u202f', ' '),
    type: (text: string): void => store.take(decodeKeys(freshDecoder, text).keys, 1000),
  };
};

const run = handMadeRun(cedarDomes());

for (const [columns, rows] of [
  [60, 20],
  [80, 24],
  [100, 40],
] as const) {
  test(`paints ${rows - 1} rows of at most ${columns} cells`, () => {
    const { frame } = show(
      fakeConversation({ run, question: questionOf({ step: 4 }) }),
      columns,
      rows,
    );
    const lines = frame().split('\n');
    expect(lines).toHaveLength(rows - 1);
    expect(Math.max(...lines.map(cellWidth))).toBeLessThanOrEqual(columns);
    expect(frame()).toContain('window 910.4 g to 928.7 g');
    expect(frame()).toContain('reading:');
  });
}

test('shows the reading as it is typed, with how it is understood', async () => {
  const { frame, type } = show(fakeConversation({ run, question: questionOf({ step: 4 }) }));
  type('12.5');
  await until(() => frame().includes('reading: 12.5   12.5 g'));
});

test('says which question was shown, and none behind help', async () => {
  const { shown, type, store, frame } = show(
    fakeConversation({ run, question: questionOf({ step: 4 }) }),
  );
  expect(shown.at(-1)?.kind).toBe('reading');
  type('help\r');
  await until(() => frame().includes('Enter or Esc closes help'));
  const before = shown.length;
  store.tick();
  await until(() => frame().includes('leaves safely'));
  expect(shown).toHaveLength(before);
});

const reason = questionOf({ kind: 'reason', step: 4, field: 'text' });

test('feeds free text to ink-text-input key by key, however fast it comes', async () => {
  const conversation = fakeConversation({ run, question: reason });
  const { type } = show(conversation);
  for (let at = 0; at < 10; at += 1) type(`reason ${at} of 10, spilt\r`);
  await until(() => conversation.heard.length === 10);
  expect(conversation.heard).toEqual(
    Array.from({ length: 10 }, (_, at) => `reason ${at} of 10, spilt`),
  );
});

test('shows a passphrase as stars only', async () => {
  const secret = questionOf({ kind: 'passphrase', step: 4, field: 'secret' });
  const conversation = fakeConversation({ run, question: secret });
  const { frame, type } = show(conversation);
  type('hunter2');
  await until(() => frame().includes('passphrase: *******'));
  expect(frame()).not.toContain('hunter2');
  type('\r');
  await until(() => conversation.heard.length === 1);
  expect(conversation.heard).toEqual(['hunter2']);
});

test('keeps a text that is longer than the field on one line', async () => {
  const conversation = fakeConversation({ run, question: reason });
  const { frame, type } = show(conversation, 60, 20);
  type('a long reason '.repeat(10));
  await until(() => frame().includes('…'));
  await until(() => frame().split('\n').length === 19);
  type('\r');
  await until(() => conversation.heard.length === 1);
  expect(conversation.heard[0]).toBe('a long reason '.repeat(10));
});
