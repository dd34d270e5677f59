import * as fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { readNumber } from '../../../src/core/quantity/decimal.ts';
import type { RunEvent, Stamped } from '../../../src/core/run/event.ts';
import { decodeEvent, encodeEvent } from '../../../src/core/run/event-codec.ts';
import { formatInstant } from '../../../src/core/time/instant.ts';
import { cases, seed } from '../../helpers/cases.ts';

// Invented data throughout.
const text = fc.stringMatching(/^[\w äß'",.\\😀-]{1,60}$/u);
const exact = fc.oneof(
  fc.stringMatching(/^-?\d{1,20}$/),
  fc.stringMatching(/^\d{1,20}\.\d{1,12}$/),
  fc.stringMatching(/^\d{1,20}\/[1-9]\d{0,12}$/),
);
const count = fc.integer({ min: 1, max: Number.MAX_SAFE_INTEGER });
const verdict = fc.constantFrom('under', 'in', 'over');
const way = fc.constantFrom('net', 'gross', 'cup', 'difference');
const typed = fc.record({ typed: text, unit: text, mass: exact, scale: text });
const judged = fc.record(
  { net: exact, total: exact, part: verdict, verdict },
  { requiredKeys: ['net', 'total', 'verdict'] },
);
const step = count;
const code = fc.constantFrom('limit', 'vessel-full', 'added-since');
const lineMasses = fc.array(fc.record({ n: count, mass: exact }), { maxLength: 3 });
const stretchKind = fc.constantFrom('least-stretch', 'whole-pieces', 'exact-proportion');
const remedy = fc.record(
  {
    kind: stretchKind,
    possible: fc.boolean(),
    reason: code,
    stretch: exact,
    topUps: lineMasses,
    targets: lineMasses,
    batchMass: exact,
    pieces: fc.nat(),
    surplus: fc.array(fc.record({ phase: text, mass: exact }), { maxLength: 2 }),
    forcedBy: code,
  },
  { requiredKeys: ['kind', 'possible'] },
);
const scale = fc.record(
  {
    name: text,
    capacity: exact,
    readability: exact,
    unit: text,
    interval: exact,
    accuracyClass: fc.constantFrom('I', 'II', 'III', 'IIII'),
    leastLoad: exact,
    repeatability: exact,
    lastCheck: fc.record({
      at: fc.constant('2027-03-04T09:00:00.000+01:00'),
      verdict: fc.constantFrom('within', 'doubtful', 'beyond'),
    }),
  },
  { requiredKeys: ['name', 'capacity', 'readability', 'unit'] },
);
const size = fc.oneof(
  fc.record({ by: fc.constant('sheet') }),
  fc.record({ by: fc.constant('pieces'), pieces: count }),
  fc.record({ by: fc.constant('mass'), mass: exact }),
  fc.record({ by: fc.constant('factor'), factor: exact }),
);

/** Each kind's members: those that must be there, and those that may. */
type Members = readonly [
  must: Record<string, fc.Arbitrary<unknown>>,
  may?: Record<string, fc.Arbitrary<unknown>>,
];

// The type makes this table complete: a kind of event that is not here does not compile.
const members: Record<RunEvent['type'], Members> = {
  begun: [
    {
      batch: text,
      practice: fc.boolean(),
      program: text,
      sheet: fc.stringMatching(/^[\w:\n\t ]{1,200}$/),
      size,
      scales: fc.array(scale, { maxLength: 3 }),
    },
    {
      scaleCheck: fc.record({
        within: count,
        otherwise: fc.constantFrom('deviation', 'refuse'),
      }),
    },
  ],
  'vessel-weighed': [{ vessel: text, tare: exact }, { reading: typed }],
  'lot-identified': [{ step, material: text, lot: text }],
  tared: [{ step }],
  'reading-taken': [
    {
      step,
      way,
      part: fc.constantFrom('display', 'residue', 'before', 'after'),
      reading: typed,
      vessel: text,
    },
    { lot: text, judged },
  ],
  'taken-back': [{ step, way, reading: typed, lifted: exact, judged }],
  amended: [{ step, amends: count, reading: typed, reason: text }, { judged }],
  'remedies-offered': [{ step, remedies: fc.array(remedy, { maxLength: 6 }) }],
  'remedy-chosen': [
    {
      step,
      kind: stretchKind,
      stretch: exact,
      topUps: lineMasses,
      targets: lineMasses,
      batchMass: exact,
      pieces: count,
      reason: text,
    },
  ],
  'remedy-left': [{ step }],
  'slip-answered': [{ step, about: count, slip: code, answer: fc.constantFrom('yes', 'no') }],
  accepted: [
    { step, what: fc.constantFrom('under', 'over', 'out-of-limits', 'overdue'), reason: text },
  ],
  ticked: [{ step }],
  'hold-started': [{ step }],
  'hold-ended': [{ step, verdict: fc.constantFrom('kept', 'early', 'late') }, { reason: text }],
  measured: [{ step, typed: text, value: exact, verdict }],
  adjusted: [{ step, typed: text, mass: exact }, { lot: text }],
  'adjust-finished': [{ step, total: exact }, { reason: text }],
  tallied: [
    {
      step,
      item: fc.constantFrom('good', 'rejected', 'samples', 'left over', 'crumbs', 'weight'),
      typed: text,
      value: exact,
    },
    { reason: text },
  ],
  unwitnessed: [{ step, reason: text }],
  witnessed: [
    {
      step,
      witness: text,
      kid: fc.stringMatching(/^[\w-]{43}$/),
      signature: fc.stringMatching(/^[\w-]{86}$/),
    },
  ],
  'put-later': [{ step }],
  'turned-to': [{ phase: text }],
  noted: [{ text }, { step }],
  paused: [{ reason: text }],
  resumed: [{}],
  'handed-over': [{ to: text }],
  closed: [{ outcome: fc.constantFrom('made', 'rejected') }, { reason: text }],
};

const at = fc
  .record({
    epochMs: fc.integer({ min: 0, max: 4_000_000_000_000 }),
    offset: fc.integer({ min: -720, max: 840 }),
  })
  .map(formatInstant);

const stampedOf = (type: string, [must, may = {}]: Members): fc.Arbitrary<Stamped> =>
  fc.record({
    seq: count,
    at,
    by: text,
    event: fc
      .record({ ...must, ...may }, { requiredKeys: Object.keys(must) })
      .map(rest => ({ type, ...rest })),
  }) as fc.Arbitrary<Stamped>;

const kinds = Object.entries(members);

describe('every kind of event', () => {
  test.each(kinds)('%s is read back as it was', (type, kind) => {
    fc.assert(
      fc.property(stampedOf(type, kind), stamped => {
        const onDisk: unknown = JSON.parse(JSON.stringify(encodeEvent(stamped)));
        expect(decodeEvent(onDisk)).toEqual({ ok: true, value: stamped });
      }),
      { numRuns: cases(50), seed },
    );
  });

  test.each(kinds)('%s keeps its order of keys whatever order it came in', (type, kind) => {
    fc.assert(
      fc.property(stampedOf(type, kind), stamped => {
        const encoded = encodeEvent(stamped);
        const turned = Object.fromEntries(Object.entries(encoded).toReversed());
        const [one, other] = [decodeEvent(encoded), decodeEvent(turned)];
        if (!one.ok || !other.ok) throw new Error('not read back');
        const text = JSON.stringify(encodeEvent(one.value));
        expect(JSON.stringify(encodeEvent(other.value))).toBe(text);
        expect(text).toMatch(/^\{"seq":\d+,"at":"[^"]*","by":".*?","type":"/);
      }),
      { numRuns: cases(20), seed },
    );
  });

  test.each(kinds)('%s is refused with a member too many or too few', (type, kind) => {
    const [stamped] = fc.sample(stampedOf(type, kind), { numRuns: 1, seed });
    const encoded = encodeEvent(stamped!);
    expect(decodeEvent({ ...encoded, more: 1 })).toEqual({
      ok: false,
      why: 'it holds a part that does not belong there',
    });
    for (const key of ['seq', 'at', 'by', 'type', ...Object.keys(kind[0])]) {
      const lacking = { ...encoded };
      delete (lacking as Record<string, unknown>)[
        key === 'seq' && type === 'amended' ? 'amends' : key
      ];
      expect(decodeEvent(lacking).ok).toBe(false);
    }
  });
});

describe('hostile input', () => {
  const good = { seq: 1, at: '2027-03-04T09:12:33.120+01:00', by: 'Ana', type: 'ticked', step: 3 };
  const reading = {
    ...good,
    type: 'measured',
    typed: '48',
    value: '48',
    verdict: 'in',
  };

  test('the invented good ones are taken', () => {
    expect(decodeEvent(good).ok).toBe(true);
    expect(decodeEvent(reading).ok).toBe(true);
  });

  test.each([
    ['an unknown kind', { ...good, type: 'erased' }],
    ['a kind that every object inherits', { ...good, type: 'constructor' }],
    ['a number that is no count', { ...good, seq: 0 }],
    ['a broken number', { ...good, step: 1.5 }],
    ['a number too large to be exact', { ...good, seq: 2 ** 53 }],
    ['a day that no month has', { ...good, at: '2027-02-30T09:12:33.120+01:00' }],
    ['an escape sequence in a name', { ...good, by: 'Ana\u001b[2J' }],
    ['a turned writing direction', { ...good, by: 'Ana\u202e' }],
    ['half a surrogate pair', { ...good, by: 'Ana\ud800' }],
    ['a name without end', { ...good, by: 'a'.repeat(201) }],
    ['no name', { ...good, by: '' }],
    ['a number as another kind of value', { ...reading, value: 48 }],
    ['a power of ten', { ...reading, value: '1e9' }],
    ['a division by zero', { ...reading, value: '1/0' }],
    ['digits without end', { ...reading, value: '1'.repeat(201) }],
    ['a list', [good]],
    ['nothing', null],
    ['text', 'ticked'],
  ])('%s is refused', (_, value) => {
    expect(decodeEvent(value).ok).toBe(false);
  });

  test('a line break in a sheet is taken, an escape is not', () => {
    const begun = {
      ...good,
      type: 'begun',
      batch: 'INV-2027-001',
      practice: false,
      program: 'tarebook 0',
      size: { by: 'sheet' },
      scales: [],
    };
    delete (begun as Partial<typeof begun>).step;
    expect(decodeEvent({ ...begun, sheet: 'a: 1\r\n\tb: 2\n' }).ok).toBe(true);
    expect(decodeEvent({ ...begun, sheet: 'a: \u009b31m' }).ok).toBe(false);
  });

  test('every exact text that is taken can be read as a number', () => {
    fc.assert(
      fc.property(fc.stringMatching(/^-?\d{1,41}([./]\d{1,41})?$/), value => {
        if (decodeEvent({ ...reading, value }).ok) expect(readNumber(value)).toBeDefined();
      }),
      { numRuns: cases(300), seed },
    );
  });
});
