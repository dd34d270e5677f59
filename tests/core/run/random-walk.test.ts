import * as fc from 'fast-check';
import { expect, test } from 'vitest';
import { readNumber, toExact } from '../../../src/core/quantity/decimal.ts';
import { asked } from '../../../src/core/run/asked.ts';
import { decide } from '../../../src/core/run/decide.ts';
import { evolve, replay } from '../../../src/core/run/evolve.ts';
import type { Intent } from '../../../src/core/run/intent.ts';
import { type OpenRun, type Run, type RunFacts, unbegun } from '../../../src/core/run/state.ts';
import type { Instant } from '../../../src/core/time/instant.ts';
import { cases, seed } from '../../helpers/cases.ts';
import { type Fraction, minus, order, plus } from '../../helpers/fraction.ts';
import { beginning, eventsOf, stampEvents } from '../../helpers/given.ts';
import { goOn, reason } from '../../helpers/maker.ts';
import { randomSheet } from '../../helpers/random-sheet.ts';
import { someReading } from '../../helpers/some-reading.ts';

const start = Date.UTC(2027, 0, 30, 8);

/** A random choice: what is tried, with which number, and how long after the one before. */
interface Choice {
  readonly kind: number;
  readonly answers: boolean;
  readonly here: boolean;
  readonly way: 'net' | 'gross' | 'cup' | 'difference';
  readonly part: 'display' | 'residue' | 'before' | 'after';
  readonly permille: number;
  readonly step: number;
  readonly seconds: number;
}

const choice: fc.Arbitrary<Choice> = fc.record({
  kind: fc.nat({ max: 59 }),
  answers: fc.boolean(),
  here: fc.boolean(),
  way: fc.constantFrom('net', 'gross', 'cup', 'difference'),
  part: fc.constantFrom('display', 'display', 'display', 'residue', 'before', 'after'),
  permille: fc.oneof(
    { arbitrary: fc.constant(1000), weight: 4 },
    { arbitrary: fc.constantFrom(990, 1010, 1011), weight: 1 },
    { arbitrary: fc.integer({ min: 0, max: 1200 }), weight: 2 },
  ),
  step: fc.nat({ max: 20 }),
  // Seldom, the clock is set back.
  seconds: fc.oneof(
    { arbitrary: fc.nat({ max: 1200 }), weight: 20 },
    { arbitrary: fc.integer({ min: -900, max: 0 }), weight: 1 },
  ),
});

/** So many thousandths of the line's target, as a display would show them. */
const display = (run: OpenRun, n: number, { way, part, permille }: Choice): string => {
  const addition = run.plan.steps[n - 1]?.addition;
  const scale = addition?.onScale?.scale;
  if (addition === undefined || scale === undefined) return String(permille);
  const d = scale.readability;
  const net =
    (addition.exact.num * BigInt(permille) * d.den) / (addition.exact.den * 1000n * d.num);
  const stands = run.vessels.get(addition.vessel);
  const more =
    way === 'gross' && stands !== undefined
      ? toDivisions(stands.tare, d) + toDivisions(stands.contents, d)
      : 0n;
  const shown = part === 'before' ? net * 2n : part === 'residue' ? net / 50n : net + more;
  return toExact({ ...d, num: shown * d.num });
};

const toDivisions = (
  mass: { readonly num: bigint; readonly den: bigint },
  d: { readonly num: bigint; readonly den: bigint },
): bigint => (mass.num * d.den) / (mass.den * d.num);

const amendSome = (run: OpenRun, made: Choice): Intent => {
  const { seq, step } = someReading(run, made.step) ?? { seq: 1, step: 1 };
  return { type: 'amend', seq, typed: display(run, step, made), reason };
};

/** What a maker, a bug or a fool may ask for: any intent, at any step. */
const anything = (run: OpenRun, n: number, made: Choice): Intent => {
  const { kind, way, part, here, step: other } = made;
  const step = here ? n : other;
  const typed = display(run, n, made);
  const all: readonly Intent[] = [
    { type: 'read', step, way, part, typed },
    { type: 'read', step, way, part: way === 'difference' ? 'before' : 'display', typed },
    { type: 'read', step: n, way, part: way === 'difference' ? 'after' : 'display', typed },
    { type: 'take-back', step: n, way, part: way === 'difference' ? 'after' : 'display', typed },
    { type: 'take-back', step, way, part, typed },
    { type: 'amend', seq: run.events.length, typed, reason },
    { type: 'amend', seq: other, typed, reason },
    amendSome(run, made),
    amendSome(run, made),
    { type: 'tare', step: n },
    { type: 'identify-lot', step: n, lot: `L-${other}` },
    { type: 'accept', step, reason },
    { type: 'accept', step: n, reason: here ? '' : reason },
    {
      type: 'weigh-vessel',
      vessel: here ? 'bowl' : 'jug',
      typed: '299.9',
      confirmed: made.answers,
    },
    { type: 'tick', step },
    { type: 'start-hold', step },
    { type: 'end-hold', step: n, reason },
    { type: 'measure', step, typed: String(other * 5) },
    { type: 'adjust', step, typed: `${other}.5 mL`, confirmed: made.answers },
    { type: 'finish-adjust', step },
    { type: 'finish-adjust', step, reason },
    { type: 'tally', step, item: 'good', typed },
    { type: 'put-later', step },
    { type: 'turn-to', phase: ['One', 'Two', 'finish', 'None'][other % 4] ?? '' },
    { type: 'note', text: 'a note' },
    { type: 'go-unwitnessed', step, reason },
    { type: 'hand-over', to: here ? 'Bea' : 'Ana' },
    { type: 'pause', reason },
    { type: 'resume' },
    { type: 'close' },
    { type: 'choose-remedy', step: n, kind: 'least-stretch', reason },
    { type: 'choose-remedy', step: n, kind: 'whole-pieces', reason },
    { type: 'choose-remedy', step, kind: 'exact-proportion', reason },
    { type: 'leave-remedy' },
    { type: 'answer-slip', step: n, answer: here ? 'yes' : 'no' },
  ];
  return all[kind % all.length] ?? { type: 'resume' };
};

const stepOf = (run: OpenRun, now: Instant): number => {
  const due = asked(run, now);
  return 'n' in due ? due.n : 1;
};

interface Walk {
  readonly run: Run;
  /** The states before, each as it was when the next intent was decided. */
  readonly past: readonly Run[];
  readonly at: Instant;
}

const dispatch = ({ run, at, past }: Walk, intent: Intent): Walk | undefined => {
  const by = run.phase === 'unbegun' ? 'Ana' : run.person;
  const decision = decide(run, intent, { at, by });
  return decision.ok
    ? {
        run: stampEvents(run, decision.events, at, by).reduce(evolve, run),
        at,
        past: [...past, run],
      }
    : undefined;
};

const later = (walk: Walk, seconds: number): Walk => ({
  ...walk,
  at: { ...walk.at, epochMs: walk.at.epochMs + seconds * 1000 },
});

const begun = (sheet: string): Walk => {
  const walk = dispatch(
    { run: unbegun, past: [], at: { epochMs: start, offset: 60 } },
    beginning(sheet),
  );
  if (walk === undefined) throw new Error('the sheet cannot be begun');
  return walk;
};

const fractionOf = (text: string): Fraction => {
  const value = readNumber(text);
  if (value === undefined) throw new Error(text);
  return [value.num, value.den];
};

interface Pour {
  net: Fraction;
}

/** What went into each step, from nothing but the nets that the events tell. */
const sumOfEvents = (run: RunFacts): ReadonlyMap<number, Fraction> => {
  const totals = new Map<number, Fraction>();
  let pours = new Map<number, Pour>();
  let before = pours;
  // Which pour a reading tells of, that of a container before included: the one after it.
  const told = new Map<number, Pour>();
  const waiting = new Map<number, number>();
  const nothing: Fraction = [0n, 1n];
  for (const { event, seq } of run.events) {
    if (event.type === 'tared' || event.type === 'lot-identified') pours.delete(event.step);
    if ('reading' in event && 'step' in event && event.judged === undefined)
      waiting.set(event.step, seq);
    // A top-up is a pour of its own, unless the remedy is left again.
    if (event.type === 'remedy-chosen') {
      before = new Map(pours);
      for (const { n } of event.topUps) pours.delete(run.plan.additions[n - 1]?.step ?? 0);
    }
    if (event.type === 'remedy-left') pours = before;
    if (event.type === 'adjusted') {
      totals.set(event.step, plus(totals.get(event.step) ?? nothing, fractionOf(event.mass)));
    }
    if (!('judged' in event) || event.judged === undefined) continue;
    const pour = (event.type === 'amended' ? told.get(event.amends) : pours.get(event.step)) ?? {
      net: nothing,
    };
    const net = fractionOf(event.judged.net);
    const more = minus(net, pour.net);
    pour.net = net;
    told.set(seq, pour);
    if (event.type !== 'amended') {
      pours.set(event.step, pour);
      const container = waiting.get(event.step);
      if (container !== undefined) told.set(container, pour);
    }
    totals.set(event.step, plus(totals.get(event.step) ?? nothing, more));
  }
  return totals;
};

const expectTotals = (run: RunFacts): void => {
  const totals = sumOfEvents(run);
  for (const [index, state] of run.steps.entries()) {
    if (state.kind !== 'addition' && state.kind !== 'adjust') continue;
    const { num, den } = state.total;
    expect(order([num, den], totals.get(index + 1) ?? [0n, 1n])).toBe(0n);
  }
};

const sum = (all: readonly Fraction[]): Fraction => all.reduce(plus, [0n, 1n]);

/** Nothing is lost: what all steps took is what all vessels hold, those emptied aside. */
const expectVessels = (run: RunFacts): void => {
  const held = [...run.vessels.values()].map(
    ({ contents }): Fraction => [contents.num, contents.den],
  );
  const took = run.steps
    .flatMap(state => (state.kind === 'addition' || state.kind === 'adjust' ? [state.total] : []))
    .map(({ num, den }): Fraction => [num, den]);
  expect(order(sum(held), sum(took))).toBe(0n);
};

const walkOn = (walk: Walk, choices: readonly Choice[]): Walk => {
  let now = walk;
  for (const made of choices) {
    now = later(now, made.seconds);
    const { run } = now;
    if (run.phase !== 'open') break;
    const n = stepOf(run, now.at);
    const intent = made.answers ? answerTo(run, now.at, made) : anything(run, n, made);
    now = dispatch(now, intent) ?? now;
  }
  return now;
};

/** An answer to what is asked, with the number of the choice where one is asked for. */
const answerTo = (run: OpenRun, at: Instant, made: Choice): Intent => {
  const due = asked(run, at);
  if (due.kind === 'reading') {
    const part = made.way === 'difference' ? 'before' : 'display';
    return {
      type: 'read',
      step: due.n,
      way: made.way,
      part,
      typed: display(run, due.n, { ...made, part }),
    };
  }
  if (due.kind === 'adjust' && made.here) {
    return { type: 'adjust', step: due.n, typed: `${made.step}/3 mL` };
  }
  return goOn(run, due);
};

const walks = fc
  .sample(fc.tuple(randomSheet, fc.array(choice, { minLength: 20, maxLength: 120 })), {
    numRuns: cases(60),
    seed,
  })
  .map(([sheet, choices]) => walkOn(begun(sheet), choices));

test('totals and vessels come to the sum of what the events tell', () => {
  for (const { run } of walks) {
    if (run.phase === 'unbegun') continue;
    expectTotals(run);
    expectVessels(run);
  }
});

/** Without the sheet and the plan, which no event changes. */
const facts = (run: Run) =>
  run.phase === 'unbegun' ? run : { ...run, sheet: undefined, plan: undefined };

test('every prefix of the events replays to the state that was true then; what was refused leaves no trace', () => {
  for (const { run, past } of walks) {
    let state: Run = unbegun;
    const replayed = new Map<number, Run>();
    for (const stamped of eventsOf(run)) {
      state = evolve(state, stamped);
      replayed.set(stamped.seq, state);
    }
    for (const then of [...past, run]) {
      expect(facts(replayed.get(eventsOf(then).length) ?? unbegun)).toEqual(facts(then));
    }
    expect(replay(eventsOf(run))).toEqual(run);
  }
});

test('what is out of its window when a batch closes stands among its deviations', () => {
  for (const walk of walks) {
    const { run } = toTheEnd(walk);
    if (run.phase !== 'closed' || run.outcome === 'rejected') continue;
    for (const { step, window } of run.plan.additions) {
      const state = run.steps[step - 1];
      if (state?.kind !== 'addition') throw new Error(`step ${step} is no addition`);
      const total: Fraction = [state.total.num, state.total.den];
      const isIn =
        order(total, [window.low.num, window.low.den]) >= 0n &&
        order(total, [window.high.num, window.high.den]) <= 0n;
      const accepted = run.deviations.some(
        each => each.step === step && (each.what === 'under' || each.what === 'over'),
      );
      expect(isIn || accepted).toBe(true);
    }
  }
});

const toTheEnd = (walk: Walk): Walk => {
  let now = walk;
  for (let tries = 0; now.run.phase === 'open'; tries += 1) {
    const due = asked(now.run, now.at);
    const next = dispatch(now, goOn(now.run, due));
    // A rest of less than half a division cannot be poured: the line is accepted as it is.
    // Too much is in, it cannot be lifted out, and accepting it would break a limit: only then is scrapping all that is left.
    const onward =
      next ??
      (due.kind === 'over' || due.kind === 'reading' || due.kind === 'after'
        ? dispatch(now, { type: 'accept', step: due.n, reason })
        : undefined);
    const isStuckByLimit =
      onward === undefined && due.kind === 'over' && now.run.sheet.limits.length > 0;
    const ended = onward ?? (isStuckByLimit ? dispatch(now, { type: 'scrap', reason }) : undefined);
    if (ended === undefined || tries > 500) throw new Error(`nothing leads on from ${due.kind}`);
    now = later(ended, 5);
  }
  return now;
};

test('from wherever a walk leads, the batch can be finished by answering what is asked', () => {
  for (const walk of walks) {
    expect(toTheEnd(walk).run.phase).toBe('closed');
  }
});

test('an open batch can always be scrapped', () => {
  for (const walk of walks) {
    if (walk.run.phase !== 'open') continue;
    expect(dispatch(walk, { type: 'scrap', reason })?.run.phase).toBe('closed');
  }
});
