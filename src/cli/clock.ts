import type { Instant } from '../core/time/instant.ts';

/** The computer's clock with its local offset. */
export const clock = (): Instant => {
  const date = new Date();
  return { epochMs: date.getTime(), offset: -date.getTimezoneOffset() };
};
