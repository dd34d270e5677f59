/** Events as they stand on a line, refused unless each member is there, of its kind, and none besides. */
import type { RunEvent } from '../../../core/run/event.ts';
import { accuracyClasses, checkVerdicts } from '../formats.ts';
import {
  type Check,
  count,
  flag,
  hash,
  instant,
  isObject,
  keyId,
  listOf,
  listUpTo,
  type Members,
  matching,
  oneOf,
  shape,
  text,
} from '../shape.ts';

/** An event with its number, instant and person on one level. */
export type Entry = RunEvent & { readonly seq: number; readonly at: string; readonly by: string };
export type EntryOf<T extends RunEvent['type']> = Extract<Entry, { readonly type: T }>;

// Digits are bounded, or a hostile record could make the sums grow without end.
const exact = matching(/^-?\d{1,200}(?:\.\d{1,200}|\/[1-9]\d{0,199})?$/);
const typedText: Check = value => typeof value === 'string' && value.length <= 100;

const typed = shape({ typed: typedText, unit: text, mass: exact, scale: text });
const verdict = oneOf('under', 'in', 'over');
const judged = shape({ net: exact, total: exact, verdict }, { part: verdict });
const check = shape({ at: instant, verdict: oneOf(...checkVerdicts) });
const scale = shape(
  { name: text, capacity: exact, readability: exact, unit: text },
  {
    interval: exact,
    accuracyClass: oneOf(...accuracyClasses),
    leastLoad: exact,
    repeatability: exact,
    lastCheck: check,
  },
);
const scaleCheck = shape({ within: count, otherwise: oneOf('deviation', 'refuse') });
const way = oneOf('net', 'gross', 'cup', 'difference');
const sizes: readonly Check[] = [
  shape({ by: oneOf('sheet') }),
  shape({ by: oneOf('pieces'), pieces: count }),
  shape({ by: oneOf('mass'), mass: exact }),
  shape({ by: oneOf('factor'), factor: exact }),
];

const code = matching(/^[a-z-]{1,40}$/);
const lineMasses = listUpTo(1000, shape({ n: count, mass: exact }));
const stretches = ['least-stretch', 'whole-pieces', 'exact-proportion'];
const remedy = shape(
  { kind: oneOf('take-back', ...stretches, 'accept', 'scrap'), possible: flag },
  {
    reason: code,
    stretch: exact,
    topUps: lineMasses,
    targets: lineMasses,
    batchMass: exact,
    pieces: count,
    surplus: listUpTo(100, shape({ phase: text, mass: exact })),
    forcedBy: code,
  },
);

const event = (required: Members, optional: Members = {}): Check =>
  shape({ seq: count, at: instant, by: text, type: text, hash, ...required }, optional);

const step = { step: count };
const reason = { reason: text };

const shapes: Readonly<Record<RunEvent['type'], Check>> = {
  begun: event(
    {
      batch: text,
      practice: flag,
      program: text,
      sheet: text,
      size: value => sizes.some(check => check(value)),
      scales: listOf(scale),
    },
    { scaleCheck, scaleReason: text },
  ),
  'vessel-weighed': event({ vessel: text, tare: exact }, { reading: typed }),
  'lot-identified': event({ ...step, material: text, lot: text }),
  tared: event(step),
  'reading-taken': event(
    {
      ...step,
      way,
      part: oneOf('display', 'residue', 'before', 'after'),
      reading: typed,
      vessel: text,
    },
    { lot: text, judged },
  ),
  'taken-back': event({ ...step, way, reading: typed, lifted: exact, judged }),
  amended: event({ ...step, amends: count, reading: typed, ...reason }, { judged }),
  'remedies-offered': event({ ...step, remedies: listUpTo(6, remedy) }),
  'remedy-chosen': event({
    ...step,
    kind: oneOf(...stretches),
    stretch: exact,
    topUps: lineMasses,
    targets: lineMasses,
    batchMass: exact,
    pieces: count,
    ...reason,
  }),
  'remedy-left': event(step),
  'slip-answered': event({ ...step, about: count, slip: text, answer: oneOf('yes', 'no') }),
  accepted: event({ ...step, what: oneOf('under', 'over', 'out-of-limits', 'overdue'), ...reason }),
  ticked: event(step),
  'hold-started': event(step),
  'hold-ended': event({ ...step, verdict: oneOf('kept', 'early', 'late') }, reason),
  measured: event({
    ...step,
    typed: typedText,
    value: exact,
    verdict,
  }),
  adjusted: event({ ...step, typed: typedText, mass: exact }, { lot: text }),
  'adjust-finished': event({ ...step, total: exact }, reason),
  tallied: event(
    {
      ...step,
      item: oneOf('good', 'rejected', 'samples', 'left over', 'crumbs', 'weight'),
      typed: typedText,
      value: exact,
    },
    reason,
  ),
  unwitnessed: event({ ...step, ...reason }),
  witnessed: event({
    ...step,
    witness: text,
    kid: keyId,
    signature: matching(/^[\w-]{86}$/),
  }),
  'put-later': event(step),
  'turned-to': event({ phase: text }),
  noted: event({ text }, step),
  paused: event(reason),
  resumed: event({}),
  'handed-over': event({ to: text }),
  closed: event({ outcome: oneOf('made', 'rejected') }, reason),
};

const isKind = (type: unknown): type is RunEvent['type'] =>
  typeof type === 'string' && Object.hasOwn(shapes, type);

/** Whether a line of the journal is an event that this version knows, with exactly its members. */
export const isEntry = (value: unknown): value is Entry =>
  isObject(value) && isKind(value['type']) && shapes[value['type']](value);
