import { expect, test } from 'vitest';
import { buildRecord } from '../../../../src/core/result/build-record.ts';
import { asked } from '../../../../src/core/run/asked.ts';
import { decide } from '../../../../src/core/run/decide.ts';
import type { Stamped } from '../../../../src/core/run/event.ts';
import { encodeEvent } from '../../../../src/core/run/event-codec.ts';
import { evolve } from '../../../../src/core/run/evolve.ts';
import type { Intent } from '../../../../src/core/run/intent.ts';
import { readScaleText } from '../../../../src/core/run/size-text.ts';
import { type OpenRun, type Run, unbegun } from '../../../../src/core/run/state.ts';
import { formatInstant } from '../../../../src/core/time/instant.ts';
import { recompute } from '../../../../src/workshop/verify/recompute/recompute.ts';
import { cases, seed } from '../../../helpers/cases.ts';
import { chain, scales as scaleTexts, sheetText } from '../../../helpers/record.ts';
import { someReading } from '../../../helpers/some-reading.ts';

/** Numerical Recipes' 32-bit generator: enough to pick what a maker does next. */
const picker = (start: number) => {
  let state = start >>> 0;
  const next = (below: number): number => {
    state = (Math.imul(state, 1664525) + 1013904223) >>> 0;
    return Math.floor((state / 2 ** 32) * below);
  };
  return { next, of: <T>(all: readonly T[]): T => all[next(all.length)]! };
};

// Invented: the fixture's sheet with a measure, a deadline and a witness besides.
const walkedSheet = sheetText
  .replace(
    '      - adjust: water\n',
    '      - measure: humidity\n        unit: "%"\n        most: 50\n      - adjust: water\n        name: wetting\n',
  )
  .replace('        empties: bowl\n', '        within: 15 min of wetting\n        empties: bowl\n')
  .replace('        amount: 60 %\n', '        amount: 60 %\n        witness: yes\n');

const ways = ['net', 'gross', 'cup', 'difference'] as const;

const numbers = [
  '350',
  '599.5',
  '600.0',
  '606.0',
  '606.1',
  '300',
  '303.1',
  '1713.2',
  '1401.2',
  '1701',
  '100',
  '41.00',
  '99.00',
  '0.50',
  '160.00',
  '60.00',
  '1803',
  '21.164 oz',
];

/** What a maker might do now: mostly an answer to what is asked, sometimes something else. */
const somethingFor = (run: OpenRun, pick: ReturnType<typeof picker>, now: number): Intent => {
  const due = asked(run, { epochMs: now, offset: 60 });
  const step = 'n' in due ? due.n : 1;
  const reason = 'because';
  const typed = pick.of(numbers);
  const way = pick.of(ways);
  const others: readonly Intent[] = [
    { type: 'note', text: 'a note' },
    { type: 'tare', step },
    { type: 'accept', step, reason },
    { type: 'put-later', step },
    { type: 'amend', seq: run.events.length, typed, reason },
    { type: 'amend', seq: someReading(run, pick.next(1000))?.seq ?? 1, typed, reason },
    { type: 'identify-lot', step, lot: pick.of(['A', 'B']) },
    { type: 'hand-over', to: pick.of(['Ada', 'Bea']) },
    { type: 'pause', reason },
    { type: 'resume' },
    { type: 'finish-adjust', step, reason },
    { type: 'leave-remedy' },
    { type: 'answer-slip', step, answer: 'no' },
    ...(pick.next(40) === 0 ? [{ type: 'scrap', reason } as const] : []),
  ];
  if (pick.next(4) === 0) return pick.of(others);
  switch (due.kind) {
    case 'vessel':
      return {
        type: 'weigh-vessel',
        vessel: due.vessel.name,
        ...(pick.next(2) === 0 ? {} : { typed: '801.2' }),
      };
    case 'lot':
      return { type: 'identify-lot', step, lot: pick.of(['A', 'B']) };
    case 'reading':
      return { type: 'read', step, way, part: way === 'difference' ? 'before' : 'display', typed };
    case 'after':
      return { type: 'read', step, way: 'difference', part: 'after', typed };
    case 'residue':
      return { type: 'read', step, way: 'cup', part: 'residue', typed };
    case 'slip':
      return { type: 'answer-slip', step, answer: pick.of(['yes', 'no']) };
    case 'over':
      if (pick.next(3) === 0) {
        const kind = pick.of(['least-stretch', 'whole-pieces', 'exact-proportion'] as const);
        return { type: 'choose-remedy', step, kind, reason };
      }
      return pick.next(3) === 0
        ? { type: 'accept', step, reason }
        : { type: 'take-back', step, way, part: way === 'difference' ? 'after' : 'display', typed };
    case 'witness':
      return { type: 'go-unwitnessed', step, reason };
    case 'gone':
    case 'overdue':
    case 'measure-out':
      return { type: 'accept', step, reason };
    case 'tick':
      return { type: 'tick', step };
    case 'hold':
      return { type: 'start-hold', step };
    case 'hold-running':
      return { type: 'end-hold', step, reason };
    case 'measure':
      return { type: 'measure', step, typed: pick.of(['45', '50,0 %', '50.1']) };
    case 'adjust':
      return {
        type: 'adjust',
        step,
        typed: pick.of(['1 mL', '2.5 mL', '1/3 mL', '1 tsp', '0.7 g']),
        confirmed: true,
      };
    case 'tally':
      return {
        type: 'tally',
        step,
        item: due.due.item,
        typed:
          due.due.item === 'weight'
            ? pick.of(['97.9', '98.4', '98.05'])
            : due.due.item === 'rejected'
              ? pick.of(['1 cracked', '0'])
              : pick.of(['9', '0', 'none']),
      };
    case 'resume':
      return { type: 'resume' };
    case 'close':
      return { type: 'close' };
  }
};

const walk = (start: number): { run: Run; stamped: readonly Stamped[] } => {
  const pick = picker(start);
  let run: Run = unbegun;
  let now = Date.UTC(2027, 0, 30, 8);
  const stamped: Stamped[] = [];
  const begin: Intent = {
    type: 'begin',
    batch: 'PRF-2027-001',
    practice: false,
    program: 'tarebook 0.1.0',
    sheet: walkedSheet,
    size: pick.of([
      { by: 'sheet' },
      { by: 'pieces', pieces: 11 },
      { by: 'factor', factor: { num: 3n, den: 2n } as never },
    ]),
    scales: scaleTexts.map(readScaleText),
  };
  for (let n = 0; n < 4000 && run.phase !== 'closed'; n += 1) {
    const at = { epochMs: now, offset: 60 };
    const intent = run.phase === 'unbegun' ? begin : somethingFor(run, pick, now);
    const by = run.phase === 'open' ? run.person : 'Ada';
    const decision = decide(run, intent, { at, by });
    for (const event of decision.ok ? decision.events : []) {
      const next: Stamped = { seq: stamped.length + 1, at: formatInstant(at), by, event };
      run = evolve(run, next);
      stamped.push(next);
    }
    now += pick.next(400) * 1000 + pick.next(1000);
  }
  return { run, stamped };
};

test('the record of any walk comes out the same when worked out again', () => {
  let closed = 0;
  for (let n = 0; n < cases(60); n += 1) {
    const { run, stamped } = walk(seed + n);
    if (run.phase !== 'closed') continue;
    closed += 1;
    const lines = chain(stamped.map(each => ({ ...encodeEvent(each) }))).lines;
    const nothing = { kind: 'worked-out', differences: [] };
    expect(
      recompute(JSON.parse(JSON.stringify(buildRecord(run, lines)))),
      `seed ${seed + n}`,
    ).toEqual({
      sheet: nothing,
      plan: nothing,
      verdicts: nothing,
      result: nothing,
    });
  }
  expect(closed).toBeGreaterThan(0);
});
