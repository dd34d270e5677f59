import type { Stamped } from './event.ts';
import type { Intent } from './intent.ts';
import type { Refusal } from './refusal.ts';
import type { Run } from './state.ts';

/** What became of an intent. `not-written` is the disk's answer: nothing changed, and trying again is safe. */
export type Outcome =
  | { readonly kind: 'done'; readonly events: readonly Stamped[] }
  | { readonly kind: 'refused'; readonly refusal: Refusal }
  | { readonly kind: 'not-written'; readonly why: string };

/**
 * The door between a face and the world: decide, append durably, evolve, notify, in that order. When
 * `dispatch` answers `done` the events are on the disk.
 */
export interface RunSession {
  readonly state: () => Run;
  readonly subscribe: (listener: () => void) => () => void;
  readonly dispatch: (intent: Intent) => Outcome;
}
