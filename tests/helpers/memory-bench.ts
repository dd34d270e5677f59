import type { Bench, Done, Opening } from '../../src/core/dialogue/bench.ts';
import type { Conversation } from '../../src/core/dialogue/conversation.ts';
import { createConversation } from '../../src/core/dialogue/converse.ts';
import type { Scale } from '../../src/core/plan/plan.ts';
import { planBatch } from '../../src/core/plan/plan-batch.ts';
import { decide } from '../../src/core/run/decide.ts';
import { evolve } from '../../src/core/run/evolve.ts';
import type { RunSession } from '../../src/core/run/session.ts';
import { type Run, unbegun } from '../../src/core/run/state.ts';
import { beginning, stampEvents } from './given.ts';
import { big, fine } from './plan.ts';
import { sheetOfText } from './sheet-text.ts';

/** A world without a disk, for one conversation after another. */
export interface World {
  ms: number;
  /** Why nothing can be written; the disk is well while it is absent. */
  fault?: string;
  run: Run;
  readonly scales: Scale[];
  /** Passphrases by name. */
  readonly keys: Map<string, string>;
  readonly signed: string[];
}

export const newWorld = (change: Partial<World> = {}): World => ({
  // 09:00 on 4 March 2027, an hour ahead of UTC.
  ms: Date.UTC(2027, 2, 4, 8),
  run: unbegun,
  scales: [big, fine],
  keys: new Map(),
  signed: [],
  ...change,
});

const sessionOf = (world: World, by: string): RunSession => ({
  state: () => world.run,
  subscribe: () => () => {},
  dispatch: intent => {
    const at = { epochMs: world.ms, offset: 60 };
    const { run } = world;
    const person = run.phase === 'unbegun' ? by : run.person;
    const decision = decide(run, intent, { at, by: person });
    if (!decision.ok) return { kind: 'refused', refusal: decision.refusal };
    if (world.fault !== undefined) return { kind: 'not-written', why: world.fault };
    const events = stampEvents(run, decision.events, at, person);
    world.run = events.reduce(evolve, run);
    return { kind: 'done', events };
  },
});

const begin = (world: World, { sheetText, size }: Opening, by: string): Done<RunSession> => {
  const session = sessionOf(world, by);
  const outcome = session.dispatch(beginning(sheetText, world.scales, size));
  if (outcome.kind === 'done') return { ok: true, value: session };
  return {
    ok: false,
    why: outcome.kind === 'refused' ? outcome.refusal.message : outcome.why,
  };
};

export interface BenchWish {
  readonly person?: string;
  /** The sheet to be made; without it, the batch of the world is resumed. */
  readonly sheet?: string;
  readonly practice?: boolean;
}

const benchOf = (world: World, { person, sheet, practice = false }: BenchWish): Bench => ({
  now: () => ({ epochMs: world.ms, offset: 60 }),
  person,
  scales: () => world.scales,
  addScale: scale => {
    world.scales.push(scale);
    return { ok: true, value: true };
  },
  opening:
    sheet === undefined
      ? undefined
      : { sheet: sheetOfText(sheet), sheetText: sheet, size: { by: 'sheet' }, practice },
  plan: (opening, scales) => planBatch(opening.sheet, opening.size, scales),
  begin: (opening, _scales, by) => begin(world, opening, by),
  session: sheet === undefined ? sessionOf(world, person ?? '') : undefined,
  hasKey: name => world.keys.has(name),
  enrol: (name, passphrase) => {
    world.keys.set(name, passphrase);
    return Promise.resolve({ ok: true, value: true });
  },
  witness: (_step, name, passphrase) =>
    Promise.resolve(
      world.keys.get(name) === passphrase
        ? { ok: true, value: { kid: 'k'.repeat(43), signature: 's'.repeat(86) } }
        : { ok: false, why: 'That passphrase does not open the key.' },
    ),
  sign: (batch, name, passphrase, meaning) => {
    if (world.keys.get(name) !== passphrase)
      return Promise.resolve({ ok: false, why: 'That passphrase does not open the key.' });
    world.signed.push(`${batch} ${meaning} ${name}`);
    return Promise.resolve({ ok: true, value: `batches/${batch}/record.json` });
  },
});

/** A conversation, and the world that it talks to. */
export interface Talked extends Conversation {
  readonly world: World;
  /** Hears the lines one after another, a minute apart. */
  readonly hearAll: (...lines: readonly string[]) => Promise<void>;
  /** All that was said to the last line, in one text. */
  readonly answer: () => string;
}

export const talk = (wish: BenchWish = {}, world: World = newWorld()): Talked => {
  const conversation = createConversation(benchOf(world, wish));
  return {
    ...conversation,
    world,
    hearAll: async (...lines) => {
      for (const line of lines) {
        world.ms += 60_000;
        await conversation.hear(line);
      }
    },
    answer: () =>
      conversation
        .said()
        .map(({ text }) => text)
        .join('\n'),
  };
};
