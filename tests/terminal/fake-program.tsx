/** The screen over a scripted conversation, to be run in a pseudo-terminal. Prints how it ended. */
import { startScreen } from '../../src/ui/screen.tsx';
import { fakeConversation, questionOf } from '../helpers/fake-conversation.ts';
import { handMadeRun, withPoured } from '../helpers/hand-made-run.ts';
import { cedarDomes } from '../helpers/sheet.ts';

const reading = (step: number) => questionOf({ step, ask: `Weigh line ${step}.` });
const reason = questionOf({ kind: 'reason', step: 4, field: 'text', ask: 'Why?' });

const conversation = fakeConversation(
  {
    run: withPoured(handMadeRun(cedarDomes()), 3, '1839'),
    question: process.argv[2] === 'reason' ? reason : reading(4),
  },
  (line, scene) => {
    if (line === 'fault') throw new Error('invented fault');
    if (line === 'end') return { ending: { status: 0, text: 'Ended well.' } };
    const next = { ...scene, said: [{ tone: 'good', text: `heard <${line}>` } as const] };
    return /^\d/.test(line)
      ? { ...next, question: reading(Math.min(6, (scene.question.step ?? 3) + 1)) }
      : next;
  },
);

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
