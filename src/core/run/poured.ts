import type { Addition, Scale } from '../plan/plan.ts';
import { toExact } from '../quantity/decimal.ts';
import type { Mass } from '../quantity/quantity.ts';
import { readReading } from '../quantity/reading.ts';
import { type Decision, refuse } from './decision.ts';
import type { Typed } from './event.ts';
import { additionInHand } from './focus.ts';
import type { AdditionState, OpenRun } from './state.ts';

export type Read<T> =
  | { readonly ok: true; readonly value: T }
  | (Decision & { readonly ok: false });

/** A number as typed from a scale's display. */
export const readTyped = (
  typed: string,
  scale: Scale,
): Read<{ readonly mass: Mass; readonly typed: Typed }> => {
  const reading = readReading(typed, scale);
  if (!reading.ok) return refuse(reading.code, reading.message, reading.instead);
  const { mass, unit } = reading;
  return {
    ok: true,
    value: { mass, typed: { typed: reading.typed, unit, mass: toExact(mass), scale: scale.name } },
  };
};

/** An addition that can be weighed, with its scale. */
export interface Poured {
  readonly addition: Addition;
  readonly state: AdditionState;
  readonly scale: Scale;
}

export const pouredInto = (run: OpenRun, n: number): Poured | undefined => {
  const found = additionInHand(run, n);
  const scale = found?.addition.onScale?.scale;
  return found && scale && { ...found, scale };
};

export const noScale = (): Decision & { ok: false } =>
  refuse('wrong-kind', 'Nothing is weighed at this step.', 'Answer what it asks.');
