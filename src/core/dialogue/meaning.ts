import type { Way } from '../run/event.ts';
import type { Intent } from '../run/intent.ts';

/** What is still needed before an intent is whole. */
export type Pending =
  | { readonly kind: 'reason'; readonly title: string; readonly intent: (reason: string) => Intent }
  | Confirm
  | {
      /** A number, or an answer of yes or no. */
      readonly kind: 'number' | 'answer';
      readonly title: string;
      readonly meaning: (typed: string) => Meaning;
    };

/** A question back, to be answered with yes. */
export interface Confirm {
  readonly kind: 'confirm';
  readonly title: string;
  readonly intent: Intent;
}

export type Meaning =
  /** Carried out in order; then `next` is asked. */
  | { readonly kind: 'intents'; readonly intents: readonly Intent[]; readonly next?: Pending }
  | { readonly kind: 'pending'; readonly pending: Pending }
  | { readonly kind: 'way'; readonly way: Way }
  | { readonly kind: 'witness'; readonly step: number; readonly name: string }
  | { readonly kind: 'leave' }
  | { readonly kind: 'help' }
  | { readonly kind: 'not-understood'; readonly text: string };

export const intents = (...all: readonly Intent[]): Meaning => ({ kind: 'intents', intents: all });
export const notUnderstood = (text: string): Meaning => ({ kind: 'not-understood', text });
export const needReason = (title: string, intent: (reason: string) => Intent): Meaning => ({
  kind: 'pending',
  pending: { kind: 'reason', title, intent },
});

export const shorten = (text: string): string =>
  text.length > 40 ? `${text.slice(0, 39)}…` : text;
