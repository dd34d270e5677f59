import type { Done } from '../core/dialogue/bench.ts';
import { decide } from '../core/run/decide.ts';
import type { RunEvent, Stamped } from '../core/run/event.ts';
import { decodeEvent, encodeEvent } from '../core/run/event-codec.ts';
import { evolve } from '../core/run/evolve.ts';
import type { Intent } from '../core/run/intent.ts';
import type { Outcome, RunSession } from '../core/run/session.ts';
import type { Run } from '../core/run/state.ts';
import { formatInstant, type Instant } from '../core/time/instant.ts';
import type { ChainedFile } from './chained-file.ts';

/** What a session works on: the state so far, the journal it came from, and the clock. */
export interface SessionGround {
  readonly run: Run;
  readonly file: Pick<ChainedFile, 'append'>;
  readonly now: () => Instant;
  /** Who begins a batch; later the run itself knows who goes on with it. */
  readonly by: string;
}

// Only what could be read back is written: each event goes through the codec as if it came from disk.
const stampAll = (
  events: readonly RunEvent[],
  first: { readonly seq: number; readonly at: string; readonly by: string },
): Done<readonly Stamped[]> => {
  const stamped: Stamped[] = [];
  for (const [index, event] of events.entries()) {
    const decoded = decodeEvent(encodeEvent({ ...first, seq: first.seq + index, event }));
    if (!decoded.ok) return { ok: false, why: `This cannot be kept: ${decoded.why}.` };
    stamped.push(decoded.value);
  }
  return { ok: true, value: stamped };
};

const countOf = (run: Run): number => (run.phase === 'unbegun' ? 0 : run.events.length);

/** The only write path: decide, append durably, evolve, notify. */
export const createSession = ({ run, file, now, by }: SessionGround): RunSession => {
  let state = run;
  const listeners = new Set<() => void>();

  const dispatch = (intent: Intent): Outcome => {
    const context = { at: now(), by: state.phase === 'unbegun' ? by : state.person };
    const decision = decide(state, intent, context);
    if (!decision.ok) return { kind: 'refused', refusal: decision.refusal };
    const first = { seq: countOf(state) + 1, at: formatInstant(context.at), by: context.by };
    const stamped = stampAll(decision.events, first);
    if (!stamped.ok) return { kind: 'not-written', why: stamped.why };
    // Worked out before it is written: an event that could not be replayed must not reach the disk.
    const next = stamped.value.reduce(evolve, state);
    const written = file.append(stamped.value.map(encodeEvent));
    if (!written.ok) return { kind: 'not-written', why: written.why };
    state = next;
    for (const listener of listeners) listener();
    return { kind: 'done', events: stamped.value };
  };

  return {
    state: () => state,
    subscribe: listener => {
      listeners.add(listener);
      return () => listeners.delete(listener);
    },
    dispatch,
  };
};
