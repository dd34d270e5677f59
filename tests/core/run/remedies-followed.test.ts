/** Every stretch that is offered, followed exactly through the machine to the finish, keeps its promise. */
import * as fc from 'fast-check';
import { expect, test } from 'vitest';
import { toDecimal } from '../../../src/core/quantity/decimal.ts';
import { add, isMore, type Mass, ratio, times } from '../../../src/core/quantity/quantity.ts';
import { toMultiple } from '../../../src/core/quantity/rounding.ts';
import { buildResult } from '../../../src/core/result/build-result.ts';
import { asked } from '../../../src/core/run/asked.ts';
import { decide } from '../../../src/core/run/decide.ts';
import { evolve } from '../../../src/core/run/evolve.ts';
import type { Intent } from '../../../src/core/run/intent.ts';
import type { StretchKind } from '../../../src/core/run/remedy-event.ts';
import { remediesOf } from '../../../src/core/run/situation-of-run.ts';
import { type OpenRun, type Run, unbegun } from '../../../src/core/run/state.ts';
import { cases, seed } from '../../helpers/cases.ts';
import { beginning, stampEvents } from '../../helpers/given.ts';
import { goOn, reason } from '../../helpers/maker.ts';
import { randomSheet } from '../../helpers/random-sheet.ts';

const kinds: readonly StretchKind[] = ['least-stretch', 'whole-pieces', 'exact-proportion'];

interface Point {
  readonly run: Run;
  readonly ms: number;
}

const start = Date.UTC(2027, 2, 4, 8);
const instant = (ms: number) => ({ epochMs: start + ms, offset: 60 });

const dispatch = ({ run, ms }: Point, intent: Intent): Point | undefined => {
  const decision = decide(run, intent, { at: instant(ms), by: 'Ana' });
  if (!decision.ok) return undefined;
  const stamped = stampEvents(run, decision.events, instant(ms), 'Ana');
  // Twenty seconds for each act: no deadline of the random sheets passes.
  return { run: stamped.reduce(evolve, run), ms: ms + 20_000 };
};

const openAt = ({ run }: Point): OpenRun | undefined => (run.phase === 'open' ? run : undefined);

/** Too much of an addition, by so many thousandths of its window's end, in divisions. */
const overPour = (run: OpenRun, n: number, permille: number): Intent | undefined => {
  const addition = run.plan.steps[n - 1]?.addition;
  const scale = addition?.onScale?.scale;
  if (addition === undefined || scale === undefined) return undefined;
  const d: Mass = scale.readability;
  const over = add(times(addition.window.high, ratio(BigInt(1000 + permille), 1000n)), d);
  const shown = toMultiple(over, d, 'up');
  if (isMore(shown, scale.capacity)) return undefined;
  return {
    type: 'read',
    step: n,
    way: 'net',
    part: 'display',
    typed: toDecimal(shown, 2, 'half-even').replace(/0$/, ''),
  };
};

/** Answers until that many readings were asked for, then pours too much; undefined where the walk ends before. */
const toOverPour = (sheet: string, which: number, permille: number): Point | undefined => {
  let point = dispatch({ run: unbegun, ms: 0 }, beginning(sheet));
  let readings = 0;
  for (let tries = 0; point !== undefined && tries < 200; tries += 1) {
    const run = openAt(point);
    if (run === undefined) return undefined;
    const due = asked(run, instant(point.ms));
    if (due.kind === 'over') return point;
    if (due.kind === 'reading') readings += 1;
    const poured =
      due.kind === 'reading' && readings === which ? overPour(run, due.n, permille) : undefined;
    point = dispatch(point, poured ?? goOn(run, due));
  }
  return undefined;
};

const toTheEnd = (from: Point): Run => {
  let point = from;
  for (let tries = 0; tries < 300; tries += 1) {
    const run = openAt(point);
    if (run === undefined) return point.run;
    const due = asked(run, instant(point.ms));
    const next = dispatch(point, goOn(run, due));
    if (next === undefined) throw new Error(`nothing leads on from ${due.kind}`);
    point = next;
  }
  throw new Error('the walk does not end');
};

const expectKept = (run: Run, sheetLimits: readonly boolean[]): void => {
  if (run.phase !== 'closed') throw new Error('not closed');
  const bad = run.deviations.filter(({ what }) => what === 'under' || what === 'over');
  expect(bad).toEqual([]);
  const result = buildResult(run);
  expect(result.additions.map(({ verdict }) => verdict)).toEqual(result.additions.map(() => 'in'));
  for (const { n, holds } of result.limits)
    expect(holds || sheetLimits[n - 1] === false).toBe(true);
  for (const phase of run.plan.phases) {
    const vessel = run.vessels.get(phase.vessel.name);
    const { holds } = phase.vessel;
    expect(vessel !== undefined && holds !== undefined && isMore(vessel.contents, holds)).toBe(
      false,
    );
  }
};

test('an offered stretch that is followed exactly ends with every line, limit and vessel kept', () => {
  let offered = 0;
  let followed = 0;
  fc.assert(
    fc.property(
      randomSheet,
      fc.integer({ min: 1, max: 6 }),
      fc.integer({ min: 0, max: 120 }),
      (sheet, which, permille) => {
        const point = toOverPour(sheet, which, permille);
        const run = point && openAt(point);
        if (point === undefined || run === undefined) return;
        const due = asked(run, instant(point.ms));
        for (const remedy of remediesOf(run)) {
          const kind = kinds.find(each => each === remedy.kind);
          if (kind === undefined || !remedy.possible || !('n' in due)) continue;
          offered += 1;
          const chosen = dispatch(point, { type: 'choose-remedy', step: due.n, kind, reason });
          expect(chosen).toBeDefined();
          if (chosen === undefined) continue;
          expectKept(toTheEnd(chosen), []);
          followed += 1;
        }
      },
    ),
    { numRuns: cases(150), seed },
  );
  console.info(`${followed} of ${offered} offered stretches followed`);
  expect(offered).toBeGreaterThan(0);
});
