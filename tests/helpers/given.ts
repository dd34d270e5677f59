import { expect } from 'vitest';
import type { Scale, SizeWish } from '../../src/core/plan/plan.ts';
import { type Asked, asked } from '../../src/core/run/asked.ts';
import { decide } from '../../src/core/run/decide.ts';
import type { RunEvent, Stamped } from '../../src/core/run/event.ts';
import { decodeEvent, encodeEvent } from '../../src/core/run/event-codec.ts';
import { evolve } from '../../src/core/run/evolve.ts';
import type { Intent } from '../../src/core/run/intent.ts';
import type { RefusalCode } from '../../src/core/run/refusal.ts';
import {
  type AdditionState,
  type ClosedRun,
  type OpenRun,
  type Run,
  unbegun,
} from '../../src/core/run/state.ts';
import { formatInstant, type Instant, readInstant } from '../../src/core/time/instant.ts';
import { big, fine } from './plan.ts';

/** When and by whom; without it, a minute after the last thing done, by the person in hand. */
interface When {
  /** ISO 8601 with milliseconds and offset. */
  readonly at?: string;
  readonly by?: string;
}

/** A batch at one moment of a story told in intents. */
export interface Story {
  readonly run: Run;
  /** When the next thing is done. */
  readonly now: Instant;
  /** All of these are accepted. */
  readonly after: (...intents: readonly Intent[]) => Story;
  readonly wait: (seconds: number) => Story;
  readonly when: (intent: Intent, when?: When) => Answer;
  /** What is asked next. */
  readonly asks: () => Asked['kind'];
}

/** What follows from one intent; each check answers how the story goes on. */
interface Answer {
  readonly gives: (...events: readonly RunEvent[]) => Story;
  readonly refuses: (code: RefusalCode) => Story;
}

const instantOf = (text: string): Instant => {
  const instant = readInstant(text);
  if (instant === undefined) throw new Error(`not an instant: ${text}`);
  return instant;
};

const plus = ({ epochMs, offset }: Instant, seconds: number): Instant => ({
  epochMs: epochMs + seconds * 1000,
  offset,
});

export const openRun = ({ run }: Pick<Story, 'run'>): OpenRun => {
  if (run.phase !== 'open') throw new Error(`the batch is ${run.phase}`);
  return run;
};

export const closedRun = ({ run }: Pick<Story, 'run'>): ClosedRun => {
  if (run.phase !== 'closed') throw new Error(`the batch is ${run.phase}`);
  return run;
};

export const additionState = (story: Pick<Story, 'run'>, n: number): AdditionState => {
  const state = story.run.phase === 'unbegun' ? undefined : story.run.steps[n - 1];
  if (state?.kind !== 'addition') throw new Error(`step ${n} is no addition`);
  return state;
};

export const eventsOf = (run: Run): readonly Stamped[] =>
  run.phase === 'unbegun' ? [] : run.events;

/** Stamps events as a session does: through the codec, so that only what can be kept goes on. */
export const stampEvents = (
  run: Run,
  events: readonly RunEvent[],
  at: Instant,
  by: string,
): readonly Stamped[] =>
  events.map((event, index) => {
    const seq = eventsOf(run).length + 1 + index;
    const decoded = decodeEvent(encodeEvent({ seq, at: formatInstant(at), by, event }));
    if (!decoded.ok) throw new Error(decoded.why);
    return decoded.value;
  });

const personOf = (run: Run): string => (run.phase === 'unbegun' ? 'Ana' : run.person);

const answer = (story: Pick<Story, 'run' | 'now'>, intent: Intent, when: When): Answer => {
  const { run } = story;
  const at = when.at === undefined ? story.now : instantOf(when.at);
  const by = when.by ?? personOf(run);
  const decision = decide(run, intent, { at, by });
  return {
    gives: (...events) => {
      expect(decision).toEqual({ ok: true, events });
      const followed = decision.ok ? decision.events : [];
      return tell(stampEvents(run, followed, at, by).reduce(evolve, run), plus(at, 60));
    },
    refuses: code => {
      expect(decision).toMatchObject({ ok: false, refusal: { code } });
      return tell(run, plus(at, 60));
    },
  };
};

/** What looks like a slip is answered with no, unless the story is about that. */
const denySlip = (story: Story, { type }: Intent): Story => {
  const due = story.run.phase === 'open' ? asked(story.run, story.now) : undefined;
  if (due?.kind !== 'slip' || type === 'answer-slip' || type === 'amend') return story;
  return tell(story.run, story.now).after({ type: 'answer-slip', step: due.n, answer: 'no' });
};

const tell = (run: Run, now: Instant): Story => ({
  run,
  now,
  after: (...intents) =>
    intents.reduce<Story>(
      (before, intent) => {
        const story = denySlip(before, intent);
        const by = personOf(story.run);
        const decision = decide(story.run, intent, { at: story.now, by });
        if (!decision.ok) throw new Error(`${intent.type}: ${JSON.stringify(decision.refusal)}`);
        const stamped = stampEvents(story.run, decision.events, story.now, by);
        return tell(stamped.reduce(evolve, story.run), plus(story.now, 60));
      },
      tell(run, now),
    ),
  wait: seconds => tell(run, plus(now, seconds - 60)),
  when: (intent, when = {}) => answer({ run, now }, intent, when),
  asks: () => asked(openRun({ run }), now).kind,
});

/** The intent that begins a batch of a sheet. */
export const beginning = (
  sheet: string,
  scales: readonly Scale[] = [big, fine],
  size: SizeWish = { by: 'sheet' },
): Intent => ({
  type: 'begin',
  batch: 'INV-2027-001',
  practice: false,
  program: 'tarebook 0.0.0',
  sheet,
  size,
  scales,
});

/** Nothing is begun yet. The clock stands at 09:00 on 4 March 2027, an hour ahead of UTC. */
export const nothingYet = (): Story => tell(unbegun, instantOf('2027-03-04T09:00:00.000+01:00'));

/** A batch of the sheet, begun by Ana, and after these intents. */
export const given = (sheet: string, ...intents: readonly Intent[]): Story =>
  nothingYet().after(beginning(sheet), ...intents);
