/** The screen over a scripted conversation, to be run in a pseudo-terminal. Prints how it ended. */
import type { Question } from '../../src/core/dialogue/conversation.ts';
import { startScreen } from '../../src/ui/screen.tsx';
import { fakeConversation, questionOf } from '../helpers/fake-conversation.ts';
import { handMadeRun, withPoured } from '../helpers/hand-made-run.ts';
import { cedarDomes } from '../helpers/sheet.ts';

const reading = (step: number) => questionOf({ step, ask: `Weigh line ${step}.` });
const reason = questionOf({ kind: 'reason', step: 4, field: 'text', ask: 'Why?' });

const over = questionOf({
  kind: 'over',
  step: 4,
  field: 'enter',
  ask: 'Over.',
  isDeliberate: true,
});

const slowDisk = (): Promise<void> =>
  new Promise(resolve => {
    setTimeout(resolve, 100);
  });

/** Step 6 is asked again after each reading, so that one can follow the other at once. */
const firstQuestions: Readonly<Record<string, Question>> = { reason, again: reading(6) };

const conversation = fakeConversation(
  {
    run: withPoured(handMadeRun(cedarDomes()), 3, '1839'),
    question: firstQuestions[process.argv[2] ?? ''] ?? reading(4),
  },
  async (line, scene) => {
    if (line === 'fault') throw new Error('invented fault');
    if (line === 'end') return { ending: { status: 0, text: 'Ended well.' } };
    if (line === '999') {
      await slowDisk();
      return { question: over };
    }
    const next = { ...scene, said: [{ tone: 'good', text: `heard <${line}>` } as const] };
    return /^\d/.test(line)
      ? { ...next, question: reading(Math.min(6, (scene.question.step ?? 3) + 1)) }
      : next;
  },
);

/** Keeps the event loop busy for four fifths of the time. */
const keepBusy = (): void => {
  const until = performance.now() + 40;
  while (performance.now() < until);
};

if (process.argv[3] === 'busy') setInterval(keepBusy, 50);

const end = await startScreen(conversation, {
  stdin: process.stdin,
  stdout: process.stdout,
  isAscii: process.env['LC_ALL'] === 'C',
  hasColour: process.env['NO_COLOR'] === undefined,
  usesAlternateScreen: true,
  rings: true,
  now: () => ({ epochMs: Date.now(), offset: 60 }),
});
process.stdout.write(`${JSON.stringify({ kind: end.kind, heard: conversation.heard })}\n`);
process.exit(end.kind === 'ended' ? 0 : 7);
