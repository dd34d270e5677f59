/**
 * When what was typed may count. Two rules of the key stream, pure and by the clock of the chunks:
 * one trigger is one addition, and a deliberate question is not answered by what came before it was seen.
 */
import type { Question } from '../../core/dialogue/conversation.ts';

/** A second trigger follows its first within this many milliseconds. */
const triggerEcho = 300;
/** Time in which nobody has read a question yet. */
const readingTime = 400;
/** A device leaves less than this between two characters, a hand more. */
const deviceGap = 100;

export interface Gate {
  /** A line that began before this is the echo of a trigger. */
  readonly quietUntil: number;
  /** Keys before this do not answer a deliberate question; infinite until it was painted. */
  readonly seenFrom: number;
}

export const openGate: Gate = { quietUntil: 0, seenFrom: 0 };

/** The wording may change while a question stands: a hold says how long it has run. */
export const isSameQuestion = (a: Question, b: Question): boolean =>
  a.kind === b.kind && a.step === b.step;

const hasMoved = (before: Question, after: Question): boolean => before.step !== after.step;

/** After an answer was taken at `at`: what follows by itself must not reach the next step. */
export const afterAnswer = (gate: Gate, before: Question, after: Question, at: number): Gate =>
  hasMoved(before, after) ? { ...gate, quietUntil: at + triggerEcho } : gate;

/** A question that must be seen was put, and is not on the screen yet. */
export const afterAsking = (gate: Gate, question: Question): Gate =>
  question.isDeliberate ? { ...gate, seenFrom: Number.POSITIVE_INFINITY } : gate;

/** The question stands on the screen since `at`. */
export const afterPainting = (gate: Gate, at: number): Gate =>
  gate.seenFrom === Number.POSITIVE_INFINITY ? { ...gate, seenFrom: at + readingTime } : gate;

/** Whether a line whose first key came at `start` only repeats the trigger before it. */
export const isEcho = (gate: Gate, start: number): boolean => start < gate.quietUntil;

/** The gate after an echo that ended at `at`: a device that goes on and on is kept out. */
export const afterEcho = (gate: Gate, at: number): Gate => ({
  ...gate,
  quietUntil: Math.max(gate.quietUntil, at + triggerEcho),
});

/** Whether a key came before the deliberate question could be read. */
export const isUnseen = (gate: Gate, question: Question, at: number): boolean =>
  question.isDeliberate && at < gate.seenFrom;

/** The gate after a key that came too soon: the rest of the same burst comes too soon as well. */
export const afterUnseen = (gate: Gate, at: number): Gate => ({
  ...gate,
  seenFrom: Math.max(gate.seenFrom, at + deviceGap),
});
