/**
 * A workshop folder with one signed batch, written by hand from the documented formats and nothing
 * else: no code of the program under test. Batch, names and lots are invented; every number in plan
 * and result was worked out by hand, see the remarks.
 */
import { createHash, generateKeyPairSync, type KeyObject, sign } from 'node:crypto';
import { mkdirSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { tempDir } from './temp-dir.ts';

export type Json = Record<string, unknown>;

export interface Person {
  readonly name: string;
  readonly kid: string;
  readonly x: string;
  readonly key: KeyObject;
}

export const sha256 = (data: string | Buffer): string =>
  createHash('sha256').update(data).digest('hex');
const base64url = (data: string | Buffer): string => Buffer.from(data).toString('base64url');

export const makePerson = (name: string): Person => {
  const { privateKey, publicKey } = generateKeyPairSync('ed25519');
  const x = publicKey.export({ format: 'jwk' }).x ?? '';
  // RFC 7638: members in alphabetical order, no blanks.
  const kid = createHash('sha256')
    .update(`{"crv":"Ed25519","kty":"OKP","x":"${x}"}`)
    .digest('base64url');
  return { name, kid, x, key: privateKey };
};

/** Chained lines as text: each ends with SHA-256(hash before ‖ bytes before `,"hash"`). */
export const chain = (bodies: readonly Json[]): { text: string; lines: Json[]; head: string } => {
  let head = '0'.repeat(64);
  const lines = bodies.map(body => {
    head = sha256(head + JSON.stringify(body).slice(0, -1));
    return { ...body, hash: head };
  });
  return { text: lines.map(line => `${JSON.stringify(line)}\n`).join(''), lines, head };
};

/** 10 · 98 g / (1 − 2 %) = 1000 g: lines of 600, 300 and 100 g, as in correction.md's table. */
export const sheetText = `sheet: Proof domes
code: PRF
revision: 2
makes: {piece: dome, count: 10, fill: 98 g, loss: 2 %}
tolerance: 1 %
use within: 1 month
cautions:
  - Not food. Keep <away> from children.
materials:
  bicarbonate: {name: Sodium bicarbonate, inci: Sodium Bicarbonate}
  citric acid: {name: "Citric acid, fine", inci: Citric Acid, hazard: eye irritant}
  cornflour: {name: Cornflour & starch, inci: Zea Mays Starch}
  water: {name: Water, inci: Aqua, density: 0.998 g/mL, lot: none}
limits:
  - {ratio: [bicarbonate, citric acid], least: 1.8, most: 2.2}
  - {of: cornflour, in: batch, most: 11 %}
phases:
  - phase: Base
    share: 100 %
    vessel: {name: bowl, tare: 800 g, holds: 4 kg}
    steps:
      - ready: [bowl and sieve clean]
      - add: bicarbonate
        amount: 60 %
      - add: citric acid
        amount: 30 %
      - add: cornflour
        amount: rest
      - adjust: water
        by: 1 mL
        most: 5 mL
        until: a squeezed handful holds together
      - do: Press into the moulds.
        empties: bowl
      - hold: 10 min to 30 min
        for: Rest, covered.
finish:
  - tally: {weigh: 2}
`;

export const scales = [
  { name: 'big', capacity: '10000', readability: '0.1', unit: 'g' },
  { name: 'fine', capacity: '200', readability: '0.01', unit: 'g' },
];

const big = (typed: string, mass = typed): Json => ({ typed, unit: 'g', mass, scale: 'big' });
const fine = (typed: string, mass: string): Json => ({ typed, unit: 'g', mass, scale: 'fine' });
const judged = (net: string, total: string, verdict: string): Json => ({ net, total, verdict });
const reading = (
  step: number,
  [way, part]: readonly [string, string],
  read: Json,
  lot: string,
  result?: Json,
): Json => ({
  type: 'reading-taken',
  step,
  way,
  part,
  reading: read,
  vessel: 'bowl',
  lot,
  ...(result === undefined ? {} : { judged: result }),
});
const tallied = (item: string, typed: string, value: string, reason?: string): Json => ({
  type: 'tallied',
  step: 8,
  item,
  typed,
  value,
  ...(reason === undefined ? {} : { reason }),
});

const possible = (
  kind: string,
  stretch: string,
  [topUps, targets]: readonly [Json[], Json[]],
  [batchMass, pieces]: readonly [string, number],
): Json => ({ kind, possible: true, stretch, topUps, targets, batchMass, pieces, surplus: [] });
const ofLine = (n: number, mass: string): Json => ({ n, mass });

/** 312 g of 300 g: correction.md's table, on these scales; 1.1 · 300 − 312 = 18, 600 · 1.04 − 600 = 24. */
const remedies: readonly Json[] = [
  possible('take-back', '1/1', [[], [ofLine(2, '300'), ofLine(3, '100')]], ['1000', 10]),
  possible(
    'least-stretch',
    '104/101',
    [[ofLine(1, '17.8')], [ofLine(3, '102.97')]],
    ['104000/101', 10],
  ),
  possible(
    'whole-pieces',
    '11/10',
    [[ofLine(1, '60'), ofLine(2, '18')], [ofLine(3, '110')]],
    ['1100', 11],
  ),
  possible('exact-proportion', '26/25', [[ofLine(1, '24')], [ofLine(3, '104')]], ['1040', 10]),
  possible('accept', '1/1', [[], [ofLine(3, '100')]], ['1000', 10]),
  possible('scrap', '1/1', [[], []], ['912', 0]),
];

/** Each event a minute after the one before, from nine o'clock on 31 January. */
const clock = (minute: number): string =>
  `2027-01-31T${String(9 + Math.floor(minute / 60)).padStart(2, '0')}:${String(minute % 60).padStart(2, '0')}:00.000+01:00`;

const events = (batch: string, practice: boolean): Json[] => [
  {
    type: 'begun',
    batch,
    practice,
    program: 'tarebook 0.1.0',
    sheet: sheetText,
    size: { by: 'sheet' },
    scales,
  },
  { type: 'vessel-weighed', vessel: 'bowl', tare: '801.2', reading: big('801.2') },
  { type: 'ticked', step: 1 },
  { type: 'lot-identified', step: 2, material: 'bicarbonate', lot: 'BIC-7' },
  reading(2, ['net', 'display'], big('350,0', '350'), 'BIC-7', judged('350', '350', 'under')),
  reading(2, ['net', 'display'], big('600.0', '600'), 'BIC-7', judged('600', '600', 'in')),
  { type: 'lot-identified', step: 3, material: 'citric acid', lot: 'CIT-1' },
  // 801.2 + 600 stood there: 1713.2 − 1401.2 = 312.0, above 303.
  reading(3, ['gross', 'display'], big('1713.2'), 'CIT-1', judged('312', '312', 'over')),
  { type: 'remedies-offered', step: 3, remedies },
  // 1703.2 − 1401.2 = 302.0: 10 g were lifted out.
  {
    type: 'taken-back',
    step: 3,
    way: 'gross',
    reading: big('1703.2'),
    lifted: '10',
    judged: judged('302', '302', 'in'),
  },
  { type: 'lot-identified', step: 4, material: 'cornflour', lot: 'CF-A' },
  reading(4, ['difference', 'before'], fine('180.00', '180'), 'CF-A'),
  reading(4, ['difference', 'after'], fine('120.00', '120'), 'CF-A', judged('60', '60', 'under')),
  { type: 'lot-identified', step: 4, material: 'cornflour', lot: 'CF-B' },
  // In a cup 41.00; 0.50 stuck to it: 40.5, with the 60 of the first lot 100.5 of 99 to 101.
  reading(4, ['cup', 'display'], fine('41.00', '41'), 'CF-B', judged('41', '101', 'in')),
  reading(4, ['cup', 'residue'], fine('0.50', '0.5'), 'CF-B', judged('40.5', '100.5', 'in')),
  // 2 · 0.998 g.
  { type: 'adjusted', step: 5, typed: '2 mL', mass: '1.996' },
  { type: 'adjust-finished', step: 5, total: '1.996' },
  { type: 'ticked', step: 6 },
  { type: 'hold-started', step: 7 },
  { type: 'hold-ended', step: 7, verdict: 'early', reason: 'the moulds are needed' },
  tallied('good', '9', '9'),
  tallied('rejected', '1 cracked', '1', 'cracked'),
  tallied('rejected', '0', '0'),
  tallied('samples', 'none', '0'),
  tallied('left over', '12.5', '12.5'),
  tallied('crumbs', '0', '0'),
  tallied('weight', '97.9', '97.9'),
  tallied('weight', '98.4', '98.4'),
  { type: 'closed', outcome: 'made' },
];

const line = (n: number, material: string, numbers: readonly string[], scale: string): Json => ({
  n,
  step: n + 1,
  phase: 'Base',
  material,
  exact: numbers[0],
  windowLow: numbers[1],
  windowHigh: numbers[2],
  scale,
  target: numbers[0],
  low: numbers[1],
  high: numbers[2],
  weighings: 1,
});

const plan = (): Json => {
  return {
    size: { by: 'sheet' },
    batchMass: '1000',
    pieces: 10,
    scales,
    additions: [
      line(1, 'bicarbonate', ['600', '594', '606'], 'big'),
      line(2, 'citric acid', ['300', '297', '303'], 'big'),
      line(3, 'cornflour', ['100', '99', '101'], 'fine'),
    ],
  };
};

const lot = (mass: string, waste: string, name?: string): Json => ({
  ...(name === undefined ? {} : { lot: name }),
  mass,
  waste,
});

/** Weighed in: 600 + 302 + 100.5 + 1.996 = 1004.496 g. */
const result = (): Json => {
  const bicarbonate = [lot('600', '0', 'BIC-7')];
  const citric = [lot('302', '10', 'CIT-1')];
  const cornflour = [lot('60', '0', 'CF-A'), lot('40.5', '0', 'CF-B')];
  const water = [lot('1.996', '0')];
  return {
    outcome: 'made',
    begun: clock(0),
    closed: clock(29),
    people: ['Ada'],
    vessels: [{ vessel: 'bowl', tare: '801.2', contents: '0' }],
    massIn: '1004.496',
    additions: [
      { n: 1, step: 2, net: '600', verdict: 'in', lots: bicarbonate },
      { n: 2, step: 3, net: '302', verdict: 'in', lots: citric },
      { n: 3, step: 4, net: '100.5', verdict: 'in', lots: cornflour },
    ],
    adjustments: [{ step: 5, material: 'water', mass: '1.996', lots: water }],
    materials: [
      // 600 / 1004.496 = 0.597 314 47; 302 / … = 0.300 648 29; 100.5 / … = 0.100 050 17; 1.996 / … = 0.001 987 07
      {
        material: 'bicarbonate',
        name: 'Sodium bicarbonate',
        mass: '600',
        share: '59.7314',
        lots: bicarbonate,
      },
      {
        material: 'citric acid',
        name: 'Citric acid, fine',
        mass: '302',
        share: '30.0648',
        lots: citric,
      },
      {
        material: 'cornflour',
        name: 'Cornflour & starch',
        mass: '100.5',
        share: '10.0050',
        lots: cornflour,
      },
      { material: 'water', name: 'Water', mass: '1.996', share: '0.1987', lots: water },
    ],
    limits: [
      // 600 / 302 = 1.986 754…
      { n: 1, actual: '1.9868', holds: true },
      { n: 2, actual: '10.0050', holds: true },
    ],
    deviations: [
      // One minute of ten to thirty.
      {
        step: 7,
        what: 'hold-early',
        found: '60',
        least: '600',
        most: '1800',
        reason: 'the moulds are needed',
        at: clock(20),
        by: 'Ada',
      },
    ],
    yield: {
      // 1004.496 / 98 = 10.249 96; · 0.98 = 10.044 96; 9 · 98 / 1004.496 = 0.878 052
      theoretical: '10.25',
      expected: '10.04',
      actual: 9,
      percent: '87.81',
      rejected: [{ count: 1, reason: 'cracked' }],
      samples: 0,
      leftOver: '12.5',
      crumbs: '0',
      weights: ['97.9', '98.4'],
      mean: '98.1500',
      // 0.25 twice: √(2 · 0.25² / 1) = 0.353 55…
      spread: '0.3536',
    },
    // 31 January and one month.
    bestBefore: '2027-02-28',
  };
};

export interface Wishes {
  readonly batch?: string;
  readonly practice?: boolean;
  /** Changes events before they are chained, and the record before it is signed. */
  readonly events?: (list: Json[]) => Json[];
  readonly record?: (record: Json) => Json;
  readonly meanings?: readonly string[];
  readonly header?: (header: Json) => Json;
  /** Who signs and who is on the register. */
  readonly signer?: Person;
  readonly enrolled?: Person;
}

export interface Written {
  readonly room: string;
  readonly folder: string;
  readonly batch: string;
  readonly signer: Person;
  readonly record: Json;
  readonly path: (name: string) => string;
}

export const recordBytes = (record: Json): string => `${JSON.stringify(record, null, 2)}\n`;

/** Signs as RFC 7515 appendix F says: the payload is not in the file. */
export const signAs = (person: Person, bytes: string, header: Json): Json => {
  const encoded = base64url(JSON.stringify(header));
  const signature = sign(null, Buffer.from(`${encoded}.${base64url(bytes)}`), person.key);
  return { protected: encoded, signature: base64url(signature) };
};

const stamp = (list: readonly Json[], by: string): Json[] =>
  list.map((event, index) => ({ seq: index + 1, at: clock(index), by, ...event }));

const recordOf = (batch: string, practice: boolean, lines: Json[], head: string): Json => ({
  type: 'application/vnd.tarebook.batch-record+json;version=0',
  batch,
  practice,
  program: 'tarebook 0.1.0',
  sheet: { name: 'Proof domes', code: 'PRF', revision: 2, text: sheetText },
  plan: plan(),
  events: lines,
  journal: { lines: lines.length, hash: head },
  result: result(),
});

const same = <T>(value: T): T => value;

/** Writes the workshop into a new temporary folder. */
export const writeWorkshop = (wishes: Wishes = {}): Written => {
  const {
    practice = false,
    events: changed = same,
    record: finish = same,
    header: headed = same,
  } = wishes;
  const batch = wishes.batch ?? (practice ? 'P-PRF-2027-001' : 'PRF-2027-001');
  const signer = wishes.signer ?? makePerson('Ada');
  const enrolled = wishes.enrolled ?? signer;
  const top = tempDir();
  const room = practice ? join(top, 'practice') : top;
  const folder = join(room, 'batches', batch);
  mkdirSync(folder, { recursive: true });
  const journal = chain(stamp(changed(events(batch, practice)), 'Ada'));
  const record = finish(recordOf(batch, practice, journal.lines, journal.head));
  const bytes = recordBytes(record);
  const ledger: Json[] = [
    {
      seq: 1,
      at: clock(30),
      by: 'Ada',
      type: 'closed',
      batch,
      record: sha256(bytes),
      journal: journal.head,
    },
  ];
  const signatures = (wishes.meanings ?? ['made by']).map(meaning => {
    const { head } = chain(ledger);
    const entry = signAs(
      signer,
      bytes,
      headed({
        alg: 'Ed25519',
        typ: 'vnd.tarebook.batch-record+json;version=0',
        kid: signer.kid,
        signer: signer.name,
        meaning,
        at: clock(31),
        ledger: { seq: ledger.length, prev: head },
      }),
    );
    const signature = sha256(`${String(entry['protected'])}.${String(entry['signature'])}`);
    ledger.push({
      seq: ledger.length + 1,
      at: clock(31),
      by: signer.name,
      type: 'signed',
      batch,
      signature,
      signer: signer.name,
      kid: signer.kid,
      meaning,
    });
    return entry;
  });
  const register = [
    { seq: 1, at: clock(0), by: 'Ada', type: 'scale-entered', ...scales[0] },
    {
      seq: 2,
      at: clock(0),
      by: enrolled.name,
      type: 'enrolled',
      name: enrolled.name,
      kid: enrolled.kid,
      key: { kty: 'OKP', crv: 'Ed25519', x: enrolled.x },
    },
  ];
  const path = (name: string): string =>
    join(name.endsWith('.json') || name === 'journal.jsonl' ? folder : room, name);
  writeFileSync(path('journal.jsonl'), journal.text);
  writeFileSync(path('record.json'), bytes);
  writeFileSync(path('record.sig.json'), `${JSON.stringify({ signatures }, null, 2)}\n`);
  writeFileSync(path('ledger.jsonl'), chain(ledger).text);
  writeFileSync(path('register.jsonl'), chain(register).text);
  return { room, folder, batch, signer, record, path };
};
