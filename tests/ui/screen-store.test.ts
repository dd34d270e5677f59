import { expect, test } from 'vitest';
import type { Question } from '../../src/core/dialogue/conversation.ts';
import { decodeKeys, freshDecoder } from '../../src/ui/keys/decoder.ts';
import { createScreenStore } from '../../src/ui/screen-store.ts';
import {
  type FakeConversation,
  fakeConversation,
  questionOf,
  type Scene,
} from '../helpers/fake-conversation.ts';

const reading = (step: number): Question => questionOf({ step });
const over = questionOf({ kind: 'over', step: 4, field: 'enter', isDeliberate: true });

/** A reading goes on to the next step; 999 is over; anything else is only heard. */
const weighing = (line: string, { question }: Scene): Partial<Scene> => {
  if (line === '999') return { question: over };
  return /^\d/.test(line) ? { question: reading((question.step ?? 0) + 1) } : {};
};

const settle = (): Promise<void> =>
  new Promise(resolve => {
    setImmediate(resolve);
  });

const open = (conversation: FakeConversation, size = { columns: 80, rows: 24 }) => {
  let now = 1000;
  const faults: unknown[] = [];
  let interrupts = 0;
  const store = createScreenStore(conversation, {
    size,
    clock: () => now,
    send: () => Promise.resolve(false),
    lastHelpTop: () => 12,
    onInterrupt: () => {
      interrupts += 1;
    },
    onHeard: () => undefined,
    onFault: fault => faults.push(fault),
  });
  return {
    store,
    faults,
    interrupts: () => interrupts,
    /** Sends a chunk so many milliseconds later and lets everything settle. */
    chunk: async (text: string, later = 1000): Promise<void> => {
      now += later;
      store.take(decodeKeys(freshDecoder, text).keys, now);
      await settle();
    },
    paint: (): void => store.painted(store.state().question),
  };
};

const atReading = () => fakeConversation({ question: reading(3) }, weighing);

test('gives a line that arrives with its Enter in one chunk', async () => {
  const conversation = atReading();
  await open(conversation).chunk('123.45\r');
  expect(conversation.heard).toEqual(['123.45']);
});

test('gives the second of two triggers in one chunk to nothing and shows it', async () => {
  const conversation = atReading();
  const { store, chunk } = open(conversation);
  await chunk('12.50\r12.50\r');
  expect(conversation.heard).toEqual(['12.50']);
  expect(store.state().notices.join()).toContain('12.50 set aside');
  expect(store.state().field.text).toBe('');
});

test('gives the second of two triggers 80 ms apart to nothing', async () => {
  const conversation = atReading();
  const { chunk } = open(conversation);
  await chunk('12.50\r');
  await chunk('12.50\r', 80);
  await chunk('12.50\r', 250);
  expect(conversation.heard).toEqual(['12.50']);
  await chunk('13.1\r', 400);
  expect(conversation.heard).toEqual(['12.50', '13.1']);
});

test('gives one line after the other, each when the one before is on disk', async () => {
  const order: string[] = [];
  const conversation = fakeConversation({ question: reading(3) }, async line => {
    order.push(`${line} begins`);
    await settle();
    order.push(`${line} ends`);
    return {};
  });
  const { chunk } = open(conversation);
  await chunk('a\rb\r');
  await settle();
  await settle();
  await settle();
  expect(order).toEqual(['a begins', 'a ends', 'b begins', 'b ends']);
});

test('answers no deliberate question with what came before it was seen', async () => {
  const conversation = fakeConversation({ question: reading(4) }, weighing);
  const { store, chunk, paint } = open(conversation);
  await chunk('999\r\r\ry\r');
  expect(conversation.heard).toEqual(['999']);
  paint();
  await chunk('y\r', 200);
  expect(conversation.heard).toEqual(['999']);
  expect(store.state().notices.join()).toContain('y not used');
  await chunk('accept\r', 1000);
  expect(conversation.heard).toEqual(['999', 'accept']);
});

test('drops what stood in the field when a deliberate question comes', async () => {
  const conversation = atReading();
  const { store, chunk } = open(conversation);
  await chunk('acc');
  conversation.put({ question: over });
  expect(store.state().field.text).toBe('');
  expect(store.state().notices.join()).toContain('acc not used');
});

test('holds a line that arrives behind help until help is closed and Enter pressed', async () => {
  const conversation = atReading();
  const { store, chunk } = open(conversation);
  await chunk('help\r');
  expect(store.state().help).toBeDefined();
  await chunk('12.5\r\r');
  expect(conversation.heard).toEqual([]);
  expect(store.state().help?.held).toBe('12.5');
  await chunk('\r');
  expect(store.state().help).toBeUndefined();
  expect(store.state().field.text).toBe('12.5');
  await chunk('\r');
  expect(conversation.heard).toEqual(['12.5']);
});

test('keeps what is in the field on Escape', async () => {
  const { store, chunk } = open(atReading());
  await chunk('12.5\u001b\u001b');
  expect(store.state().field.text).toBe('12.5');
});

test('takes nothing while the window is too small, and loses nothing', async () => {
  const conversation = atReading();
  const { store, chunk } = open(conversation);
  await chunk('12');
  store.resize({ columns: 30, rows: 8 });
  await chunk('5\r');
  expect(conversation.heard).toEqual([]);
  expect(store.state().notices.join()).toContain('5 not used');
  store.resize({ columns: 80, rows: 24 });
  expect(store.state().field.text).toBe('12');
});

test('never shows a secret, not even one that is not used', async () => {
  const secret = questionOf({ kind: 'passphrase', field: 'secret', step: 9 });
  const conversation = fakeConversation({ question: reading(8) }, () => ({ question: secret }));
  const { store, chunk } = open(conversation);
  await chunk('1\rhunter2\r');
  expect(store.state().notices.join()).toContain('set aside');
  expect(store.state().notices.join()).not.toContain('hunter2');
  expect(store.state().echo).toBeUndefined();
});

test('brings the last line back on Up', async () => {
  const { store, chunk } = open(fakeConversation({ question: reading(3) }));
  await chunk('12,5x\r');
  await chunk('\u001b[A');
  expect(store.state().field.text).toBe('12,5x');
});

test('gives no answer to a question that changed by itself meanwhile', async () => {
  const conversation = fakeConversation({ question: reading(3) });
  const { store, chunk } = open(conversation);
  const late = questionOf({ kind: 'overdue', step: 3, isDeliberate: true });
  Object.assign(conversation, { question: () => late });
  await chunk('12\r');
  expect(conversation.heard).toEqual([]);
  expect(store.state().question.kind).toBe('overdue');
});

test('echoes how the text is understood', async () => {
  const { store, chunk } = open(atReading());
  await chunk('12.5');
  expect(store.state().echo).toBe('12.5 g');
});

test('leaves on Ctrl+C in the middle of a chunk, after what came before it', async () => {
  const conversation = atReading();
  const { chunk, interrupts } = open(conversation);
  await chunk('12.5\r\u000399\r');
  expect(interrupts()).toBe(1);
  expect(conversation.heard).toEqual(['12.5']);
});

test('hands over a fault of the conversation', async () => {
  const conversation = fakeConversation({}, () => {
    throw new Error('invented');
  });
  const { chunk, faults } = open(conversation);
  await chunk('1\r');
  expect(faults).toEqual([new Error('invented')]);
});

test.each(['reading', 'lot', 'over', 'tick', 'close'] as const)(
  'does nothing on loose text at %s',
  async kind => {
    const conversation = fakeConversation({ question: questionOf({ kind, step: 3 }) });
    const { chunk } = open(conversation);
    await chunk('lot-d4y7q');
    expect(conversation.heard).toEqual([]);
  },
);

test('scrolls help no further than its end', async () => {
  const { store, chunk } = open(atReading());
  await chunk('help\r');
  await chunk('\u001b[6~\u001b[6~\u001b[6~');
  expect(store.state().help?.top).toBe(12);
  await chunk('\u001b[A');
  expect(store.state().help?.top).toBe(11);
});
