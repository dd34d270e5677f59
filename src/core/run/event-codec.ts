/**
 * Events as they stand on a line of the journal, and back. The order of the keys below is their order
 * on disk. Whatever comes from a disk is hostile until it went through here: objects are strict, the
 * list of events is closed, every text is bounded.
 */
import * as z from 'zod/mini';
import { readInstant } from '../time/instant.ts';
import { type Stamped, ways } from './event.ts';

/** A stamped event as one flat object, `seq`, `at`, `by` and `type` first. */
export type EncodedEvent = Readonly<Record<string, unknown>>;

export type DecodedEvent =
  | { readonly ok: true; readonly value: Stamped }
  | { readonly ok: false; readonly why: string };

// Control characters, halves of surrogate pairs, line separators and bidirectional overrides: no name
// or note needs them, and a terminal may obey them.
const unwanted = /[\p{Cc}\p{Cs}\p{Zl}\p{Zp}\u202A-\u202E\u2066-\u2069]/u;
const unwantedInSheet = /[^\P{Cc}\t\n\r]|\p{Cs}/u;

const textUpTo = (longest: number) =>
  z.string().check(
    z.minLength(1),
    z.maxLength(longest),
    z.refine(text => !unwanted.test(text)),
  );

const name = textUpTo(200);
const digits = textUpTo(100);
const prose = textUpTo(2000);
const sheet = z.string().check(
  z.minLength(1),
  z.maxLength(1_048_576),
  z.refine(text => !unwantedInSheet.test(text)),
);
/** Exact text that `readNumber` reads: a decimal or a fraction, with bounded digits. */
const exact = z.string().check(z.regex(/^-?\d{1,200}(?:\.\d{1,200}|\/[1-9]\d{0,199})?$/));
const counting = z
  .number()
  .check(z.refine(value => Number.isSafeInteger(value) && value >= 1 && !Object.is(value, -0)));
const optional = z.exactOptional;

const at = z.string().check(z.refine(text => readInstant(text) !== undefined));
const verdict = z.enum(['under', 'in', 'over']);
const way = z.enum(ways);
const part = z.enum(['display', 'residue', 'before', 'after']);
const typed = z.strictObject({ typed: digits, unit: name, mass: exact, scale: name });
const judged = z.strictObject({ net: exact, total: exact, part: optional(verdict), verdict });
const scale = z.strictObject({
  name,
  capacity: exact,
  readability: exact,
  unit: name,
  interval: optional(exact),
  accuracyClass: optional(z.enum(['I', 'II', 'III', 'IIII'])),
  leastLoad: optional(exact),
  repeatability: optional(exact),
  lastCheck: optional(z.strictObject({ at, verdict: z.enum(['within', 'doubtful', 'beyond']) })),
});
const size = z.discriminatedUnion('by', [
  z.strictObject({ by: z.literal('sheet') }),
  z.strictObject({ by: z.literal('pieces'), pieces: counting }),
  z.strictObject({ by: z.literal('mass'), mass: exact }),
  z.strictObject({ by: z.literal('factor'), factor: exact }),
]);

const code = z.string().check(z.regex(/^[a-z-]{1,40}$/));
const lineMasses = z.array(z.strictObject({ n: counting, mass: exact })).check(z.maxLength(1000));
const remedy = z.strictObject({
  kind: z.enum([
    'take-back',
    'least-stretch',
    'whole-pieces',
    'exact-proportion',
    'accept',
    'scrap',
  ]),
  possible: z.boolean(),
  reason: optional(code),
  stretch: optional(exact),
  topUps: optional(lineMasses),
  targets: optional(lineMasses),
  batchMass: optional(exact),
  pieces: optional(z.number().check(z.nonnegative(), z.int())),
  surplus: optional(z.array(z.strictObject({ phase: name, mass: exact })).check(z.maxLength(100))),
  forcedBy: optional(code),
});

const step = counting;

const event = <T extends string, S extends z.core.$ZodLooseShape>(type: T, shape: S) =>
  z.strictObject({ seq: counting, at, by: name, type: z.literal(type), ...shape });

const eventLine = z.discriminatedUnion('type', [
  event('begun', {
    batch: name,
    practice: z.boolean(),
    program: name,
    sheet,
    size,
    scales: z.array(scale).check(z.maxLength(100)),
    scaleCheck: optional(
      z.strictObject({ within: counting, otherwise: z.enum(['deviation', 'refuse']) }),
    ),
    scaleReason: optional(prose),
  }),
  event('vessel-weighed', { vessel: name, tare: exact, reading: optional(typed) }),
  event('lot-identified', { step, material: name, lot: name }),
  event('tared', { step }),
  event('reading-taken', {
    step,
    way,
    part,
    reading: typed,
    vessel: name,
    lot: optional(name),
    judged: optional(judged),
  }),
  event('taken-back', { step, way, reading: typed, lifted: exact, judged }),
  event('amended', {
    step,
    amends: counting,
    reading: typed,
    judged: optional(judged),
    reason: prose,
  }),
  event('remedies-offered', { step, remedies: z.array(remedy).check(z.maxLength(6)) }),
  event('remedy-chosen', {
    step,
    kind: z.enum(['least-stretch', 'whole-pieces', 'exact-proportion']),
    stretch: exact,
    topUps: lineMasses,
    targets: lineMasses,
    batchMass: exact,
    pieces: counting,
    reason: prose,
  }),
  event('remedy-left', { step }),
  event('slip-answered', { step, about: counting, slip: name, answer: z.enum(['yes', 'no']) }),
  event('accepted', {
    step,
    what: z.enum(['under', 'over', 'out-of-limits', 'overdue']),
    reason: prose,
  }),
  event('ticked', { step }),
  event('hold-started', { step }),
  event('hold-ended', {
    step,
    verdict: z.enum(['kept', 'early', 'late']),
    reason: optional(prose),
  }),
  event('measured', { step, typed: digits, value: exact, verdict }),
  event('adjusted', { step, typed: digits, mass: exact, lot: optional(name) }),
  event('adjust-finished', { step, total: exact, reason: optional(prose) }),
  event('tallied', {
    step,
    item: z.enum(['good', 'rejected', 'samples', 'left over', 'crumbs', 'weight']),
    typed: digits,
    value: exact,
    reason: optional(prose),
  }),
  event('unwitnessed', { step, reason: prose }),
  event('witnessed', {
    step,
    witness: name,
    kid: z.string().check(z.regex(/^[\w-]{43}$/)),
    signature: z.string().check(z.regex(/^[\w-]{86}$/)),
  }),
  event('put-later', { step }),
  event('turned-to', { phase: name }),
  event('noted', { text: prose, step: optional(step) }),
  event('paused', { reason: prose }),
  event('resumed', {}),
  event('handed-over', { to: name }),
  event('closed', { outcome: z.enum(['made', 'rejected']), reason: optional(prose) }),
]);

/** Puts an event on one level; what `decodeEvent` gave comes out with its keys in the order of the disk. */
export const encodeEvent = ({ seq, at, by, event }: Stamped): EncodedEvent => ({
  seq,
  at,
  by,
  ...event,
});

const stamp = ({ seq, at, by, ...event }: z.infer<typeof eventLine>): Stamped => ({
  seq,
  at,
  by,
  event,
});

const explain = (issue: z.core.$ZodIssue | undefined): string => {
  if (issue?.path[0] === 'type') return 'it is of no kind that this program knows';
  if (issue?.code === 'unrecognized_keys') return 'it holds a part that does not belong there';
  return `its ${issue?.path.join('.') || 'shape'} cannot be read`;
};

/** Reads an event without trusting it; an unknown kind, a missing, an extra or an unbounded part is refused. */
export const decodeEvent = (value: unknown): DecodedEvent => {
  const read = eventLine.safeParse(value);
  return read.success
    ? { ok: true, value: stamp(read.data) }
    : { ok: false, why: explain(read.error.issues[0]) };
};
