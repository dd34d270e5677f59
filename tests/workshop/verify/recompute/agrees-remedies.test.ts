import * as fc from 'fast-check';
import { expect, test } from 'vitest';
import type { Scale } from '../../../../src/core/plan/plan.ts';
import { planBatch } from '../../../../src/core/plan/plan-batch.ts';
import { toExact } from '../../../../src/core/quantity/decimal.ts';
import type { Mass } from '../../../../src/core/quantity/quantity.ts';
import { buildRecord } from '../../../../src/core/result/build-record.ts';
import { type Asked, asked } from '../../../../src/core/run/asked.ts';
import { decide } from '../../../../src/core/run/decide.ts';
import type { Stamped } from '../../../../src/core/run/event.ts';
import { encodeEvent } from '../../../../src/core/run/event-codec.ts';
import { evolve } from '../../../../src/core/run/evolve.ts';
import type { Intent } from '../../../../src/core/run/intent.ts';
import { type OpenRun, type Run, unbegun } from '../../../../src/core/run/state.ts';
import { formatInstant } from '../../../../src/core/time/instant.ts';
import { recompute } from '../../../../src/workshop/verify/recompute/recompute.ts';
import { cases, seed } from '../../../helpers/cases.ts';
import { type Fraction, minus } from '../../../helpers/fraction.ts';
import { beginning, eventsOf } from '../../../helpers/given.ts';
import { big, fine } from '../../../helpers/plan.ts';
import { randomSheet } from '../../../helpers/random-sheet.ts';
import { chain } from '../../../helpers/record.ts';
import { mass } from '../../../helpers/sheet.ts';
import { sheetOfText } from '../../../helpers/sheet-text.ts';
import { someReading } from '../../../helpers/some-reading.ts';

const reason = 'the scoop slipped';

type Gen = fc.GeneratorValue;
const one = <T>(g: Gen, ...all: readonly T[]): T => all[g(fc.nat, { max: all.length - 1 })] as T;
const chance = (g: Gen, percent: number): boolean => g(fc.nat, { max: 99 }) < percent;

// Invented: the display of a kitchen scale and of a fine one, at times with a least load.
const scalesFor = (g: Gen): readonly Scale[] =>
  one<readonly Scale[]>(
    g,
    [big, fine],
    [{ ...big, leastLoad: mass('5') }, fine],
    [big, { ...fine, accuracyClass: 'II' }],
    [{ ...big, repeatability: mass('0.002') }],
    [{ ...big, capacity: mass('250') }],
  );

const inGrams = ({ num, den }: Mass): number => Number(num) / Number(den);

/** A little above the share that the sheet itself comes to, in per cent. */
const tightLimit = (text: string, material: string): string => {
  const { plan } = planBatch(sheetOfText(text), { by: 'sheet' }, [big, fine]);
  const share = plan.additions
    .filter(each => each.material === material)
    .reduce((total, { exact }) => total + inGrams(exact) / inGrams(plan.size.batchMass), 0);
  return `  - {of: ${material}, in: batch, most: ${(share * 102).toFixed(2)} %}\n`;
};

/** At times with a bowl that holds little, that is emptied half-way, or with a limit that binds. */
const sheetFor = (g: Gen): string => {
  let text = g(() => randomSheet);
  if (chance(g, 30))
    text = text.replaceAll('tare: 300 g', `tare: 300 g, holds: ${one(g, 1500, 2500, 4000)} g`);
  if (chance(g, 60) && text.includes('jug') && !text.includes('tip:'))
    text = text.replace('- do: Knead.', '- do: Knead.\n        empties: bowl');
  if (!chance(g, 40)) return text;
  const limit = tightLimit(text, one(g, 'soda', 'acid', 'oil', 'water'));
  return text.includes('limits:\n')
    ? text.replace('limits:\n', `limits:\n${limit}`)
    : text.replace('phases:\n', `limits:\n${limit}phases:\n`);
};

/** What the display shows when so many thousandths of the target are in. */
const display = (
  g: Gen,
  run: OpenRun,
  n: number,
  way: 'net' | 'gross',
  permille = chance(g, 55) ? 1000 : one(g, 400, 985, 995, 1004, 1015, 1030, 1050, 1080),
): string => {
  const { addition } = run.plan.steps[n - 1] ?? {};
  const state = run.steps[n - 1];
  const scale = addition?.onScale;
  if (scale?.target === undefined || addition === undefined || state?.kind !== 'addition')
    return '1';
  const { readability } = scale.scale;
  const d: Fraction = [readability.num, readability.den];
  const part = addition.parts?.[Math.min(Math.max(state.pours.length, 1), addition.weighings) - 1];
  const { num: aim, den: parts } = part?.target ?? scale.target;
  const wanted = (aim * BigInt(permille) * d[1]) / (parts * 1000n * d[0]);
  const earlier: Fraction =
    part === undefined ? minus([state.total.num, state.total.den], pourOf(state)) : [0n, 1n];
  const stands = run.vessels.get(addition.vessel);
  const more: Fraction =
    way === 'gross' && stands !== undefined
      ? minus(
          [
            stands.tare.num * stands.contents.den + stands.contents.num * stands.tare.den,
            stands.tare.den * stands.contents.den,
          ],
          pourOf(state),
        )
      : minus([0n, 1n], earlier);
  const [num, den] = minus([wanted * d[0], d[1]], minus([0n, 1n], more));
  return toExact({ ...readability, num, den });
};

const pourOf = ({ pours }: { readonly pours: readonly { readonly net: Mass }[] }): Fraction => {
  const net = pours.at(-1)?.net;
  return net === undefined ? [0n, 1n] : [net.num, net.den];
};

const decideOver = (g: Gen, run: OpenRun, step: number): Intent => {
  const kinds = ['least-stretch', 'whole-pieces', 'exact-proportion'] as const;
  const choice = one(g, 'stretch', 'stretch', 'accept', 'back', 'back');
  if (choice === 'stretch') return { type: 'choose-remedy', step, kind: one(g, ...kinds), reason };
  if (choice === 'accept') return { type: 'accept', step, reason };
  const way = one(g, 'net', 'gross');
  const typed = display(g, run, step, way, 1000);
  return { type: 'take-back', step, way, part: 'display', typed };
};

const read = (g: Gen, run: OpenRun, step: number, due: Asked['kind']): Intent => {
  if (chance(g, 8)) return { type: 'tare', step };
  if (due === 'after')
    return {
      type: 'read',
      step,
      way: 'difference',
      part: 'after',
      typed: one(g, '0', '20', '100'),
    };
  const way = one(g, 'net', 'net', 'gross', 'cup', 'difference');
  const part = way === 'difference' ? 'before' : 'display';
  const typed = display(g, run, step, way === 'gross' ? 'gross' : 'net');
  return { type: 'read', step, way, part, typed };
};

const answer = (g: Gen, run: OpenRun, due: Asked): Intent => {
  const step = 'n' in due ? due.n : 1;
  switch (due.kind) {
    case 'resume':
      return { type: 'resume' };
    case 'close':
      return { type: 'close' };
    case 'vessel':
      return { type: 'weigh-vessel', vessel: due.vessel.name };
    case 'lot':
      return { type: 'identify-lot', step, lot: one(g, 'L-1', 'L-2') };
    case 'reading':
    case 'after':
      return read(g, run, step, due.kind);
    case 'residue':
      return { type: 'read', step, way: 'cup', part: 'residue', typed: one(g, '0', '0', '0.5') };
    case 'over':
      return decideOver(g, run, step);
    case 'slip':
      return { type: 'answer-slip', step, answer: one(g, 'yes', 'no') };
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
      return { type: 'measure', step, typed: '40' };
    case 'adjust':
      return chance(g, 60)
        ? { type: 'adjust', step, typed: one(g, '1 mL', '2.5 mL', '0.7 g'), confirmed: true }
        : { type: 'finish-adjust', step, reason };
    case 'tally':
      return {
        type: 'tally',
        step,
        item: due.due.item,
        typed: due.due.item === 'weight' ? '99.5' : '0',
      };
  }
};

const amendSome = (g: Gen, run: OpenRun): Intent => {
  const { seq, step } = someReading(run, g(fc.nat, { max: 999 })) ?? { seq: 1, step: 1 };
  return { type: 'amend', seq, typed: display(g, run, step, 'net'), reason };
};

const aside = (g: Gen, run: OpenRun, step: number): Intent =>
  one<Intent>(
    g,
    { type: 'turn-to', phase: one(g, 'One', 'Two') },
    { type: 'leave-remedy' },
    { type: 'leave-remedy' },
    { type: 'put-later', step },
    { type: 'note', text: 'a note' },
    { type: 'accept', step, reason },
    { type: 'answer-slip', step, answer: 'no' },
    { type: 'amend', seq: run.events.length, typed: display(g, run, step, 'net'), reason },
    amendSome(g, run),
    amendSome(g, run),
    chance(g, 8) ? { type: 'scrap', reason } : { type: 'hand-over', to: one(g, 'Ada', 'Bea') },
  );

const walk = (g: Gen): Run => {
  let run: Run = unbegun;
  let now = Date.UTC(2027, 0, 30, 8);
  const begin = beginning(sheetFor(g), scalesFor(g));
  for (let n = 0; n < 400 && run.phase !== 'closed'; n += 1) {
    const at = { epochMs: now, offset: 60 };
    now += 20_000;
    const due = run.phase === 'open' ? asked(run, at) : undefined;
    const step = due !== undefined && 'n' in due ? due.n : 1;
    const intent =
      run.phase !== 'open' || due === undefined
        ? begin
        : chance(g, 15)
          ? aside(g, run, step)
          : answer(g, run, due);
    const by = run.phase === 'open' ? run.person : 'Ada';
    const decision = decide(run, intent, { at, by });
    if (!decision.ok && run.phase === 'unbegun') return run;
    for (const event of decision.ok ? decision.events : []) {
      const stamped: Stamped = { seq: eventsOf(run).length + 1, at: formatInstant(at), by, event };
      run = evolve(run, stamped);
    }
  }
  return run;
};

const nothing = { kind: 'worked-out', differences: [] };
const good = { sheet: nothing, plan: nothing, verdicts: nothing, result: nothing };

test('the record of any walk with over-pours comes out the same when worked out again', () => {
  const seen = new Map<string, number>();
  const count = (what: string): unknown => seen.set(what, (seen.get(what) ?? 0) + 1);
  fc.assert(
    fc.property(fc.gen(), g => {
      const run = walk(g);
      if (run.phase !== 'closed') return;
      count('closed');
      for (const { event } of run.events)
        count(event.type === 'remedy-chosen' ? event.kind : event.type);
      const lines = chain(run.events.map(each => ({ ...encodeEvent(each) }))).lines;
      expect(recompute(JSON.parse(JSON.stringify(buildRecord(run, lines))))).toEqual(good);
    }),
    { numRuns: cases(80), seed, endOnFailure: true },
  );
  // A walk that never comes to a remedy would show nothing.
  const wanted = [
    'closed',
    'least-stretch',
    'whole-pieces',
    'exact-proportion',
    'remedy-left',
    'amended',
  ];
  expect(wanted.filter(what => !seen.has(what))).toEqual([]);
});
