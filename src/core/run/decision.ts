import type { Instant } from '../time/instant.ts';
import type { RunEvent } from './event.ts';
import type { Refusal, RefusalCode } from './refusal.ts';

/** What a decision needs from outside: when it is, and who asks. */
export interface Context {
  readonly at: Instant;
  readonly by: string;
}

export type Decision =
  | { readonly ok: true; readonly events: readonly RunEvent[] }
  | { readonly ok: false; readonly refusal: Refusal };

export const refuse = (
  code: RefusalCode,
  message: string,
  instead: string,
): Decision & { ok: false } => ({
  ok: false,
  refusal: { code, message, instead },
});

export const follow = (...events: readonly RunEvent[]): Decision => ({ ok: true, events });

/** Text that a person types for the record: one line without control or invisible characters, bounded. */
export const readText = (text: string | undefined): string | undefined => {
  const trimmed = text?.trim() ?? '';
  const isClean = trimmed.length <= longestText && !/[\p{C}\p{Zl}\p{Zp}\uFFFD]/u.test(trimmed);
  return isClean && trimmed !== '' ? trimmed : undefined;
};

/** A reason must say something: three letters at least. */
export const readReason = (text: string | undefined): string | undefined => {
  const reason = readText(text);
  return reason !== undefined && /\p{L}.*\p{L}.*\p{L}/u.test(reason) ? reason : undefined;
};

/** No text that a person types for the record is longer, in UTF-16 units. */
export const longestText = 500;

export const reasonMissing = (): Decision =>
  refuse(
    'reason-missing',
    'A reason is needed, in a few words.',
    'Type why, for example: scoop slipped, mixed in well.',
  );
