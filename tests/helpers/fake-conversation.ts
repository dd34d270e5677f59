import type {
  Conversation,
  Ending,
  Question,
  Saying,
} from '../../src/core/dialogue/conversation.ts';
import { type Run, unbegun } from '../../src/core/run/state.ts';

/** What a conversation shows at one moment. */
export interface Scene {
  readonly run: Run;
  readonly question: Question;
  readonly said: readonly Saying[];
  readonly ending?: Ending;
}

export interface FakeConversation extends Conversation {
  /** Every line heard, in order. */
  readonly heard: string[];
  readonly put: (scene: Partial<Scene>) => void;
}

export const questionOf = (change: Partial<Question> = {}): Question => ({
  kind: 'reading',
  ask: 'Weigh it in.',
  field: 'quantity',
  commands: [
    { word: 'note', does: 'writes a note into the record' },
    { word: 'leave', does: 'leaves' },
    { word: 'help', does: 'says what works now' },
  ],
  isDeliberate: false,
  ...change,
});

/** A conversation by script: each line heard makes the next scene. */
export const fakeConversation = (
  first: Partial<Scene>,
  answer: (line: string, scene: Scene) => Partial<Scene> | Promise<Partial<Scene>> = () => ({}),
): FakeConversation => {
  let scene: Scene = { run: unbegun, question: questionOf(), said: [], ...first };
  const heard: string[] = [];
  const listeners = new Set<() => void>();
  const put = (change: Partial<Scene>): void => {
    scene = { ...scene, ...change };
    for (const listener of listeners) listener();
  };
  return {
    heard,
    put,
    run: () => scene.run,
    question: () => scene.question,
    said: () => scene.said,
    echo: typed => (/\d/.test(typed) ? `${typed} g` : undefined),
    hear: async line => {
      heard.push(line);
      put(await answer(line, scene));
    },
    subscribe: listener => {
      listeners.add(listener);
      return () => listeners.delete(listener);
    },
    ending: () => scene.ending,
    leave: () => ({ status: 4, text: 'Left. `tarebook resume INV-2027-001` goes on.' }),
  };
};
