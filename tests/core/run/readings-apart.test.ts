import * as fc from 'fast-check';
import { expect, test } from 'vitest';
import { buildResult } from '../../../src/core/result/build-result.ts';
import type { Verdict } from '../../../src/core/run/event.ts';
import type { Intent } from '../../../src/core/run/intent.ts';
import { cases, seed } from '../../helpers/cases.ts';
import { by, type Fraction, minus, order, plus, wholeBelow } from '../../helpers/fraction.ts';
import {
  additionState,
  beginning,
  closedRun,
  nothingYet,
  openRun,
  type Story,
} from '../../helpers/given.ts';
import { scaleOf } from '../../helpers/plan.ts';

/** One side of a tolerance in hundredths: of a gram, of a per cent, or nothing at all. */
type Side = { readonly kind: 'g' | '%'; readonly hundredths: number } | undefined;

interface Line {
  /** Hundredths of a gram. */
  readonly target: number;
  readonly under: Side;
  readonly over: Side;
  readonly acts: readonly Act[];
}

/** Where a reading is aimed: at an edge of the window, so many divisions beyond it, or anywhere. */
interface Act {
  readonly kind: 'net' | 'gross' | 'difference' | 'tare';
  readonly aim: 'low' | 'high' | 'target' | 'anywhere';
  readonly beyond: number;
  readonly permille: number;
}

interface Case {
  /** Hundredths of a gram. */
  readonly division: number;
  readonly lines: readonly Line[];
}

const side: fc.Arbitrary<Side> = fc.oneof(
  fc.record({ kind: fc.constant('g' as const), hundredths: fc.integer({ min: 1, max: 900 }) }),
  fc.record({ kind: fc.constant('%' as const), hundredths: fc.integer({ min: 1, max: 400 }) }),
);

const act: fc.Arbitrary<Act> = fc.record({
  kind: fc.constantFrom('net', 'net', 'gross', 'difference', 'tare'),
  aim: fc.constantFrom('low', 'high', 'target', 'anywhere', 'anywhere'),
  beyond: fc.constantFrom(0, 0, 1, -1),
  permille: fc.integer({ min: 1, max: 1100 }),
});

const line: fc.Arbitrary<Line> = fc.record({
  target: fc.integer({ min: 2000, max: 90_000 }),
  under: fc.option(side, { nil: undefined }),
  over: side,
  acts: fc.array(act, { minLength: 1, maxLength: 8 }),
});

const lineEitherSide = line.chain(each =>
  fc.constantFrom(each, { ...each, under: each.over, over: each.under }),
);

const aCase: fc.Arbitrary<Case> = fc.record({
  division: fc.constantFrom(1, 2, 5, 10, 50, 100),
  lines: fc.array(lineEitherSide, { minLength: 5, maxLength: 5 }),
});

const hundredths = (value: number): string =>
  `${Math.trunc(value / 100)}.${String(value % 100).padStart(2, '0')}`;
const grams = (value: number): Fraction => [BigInt(value), 100n];
const nothing: Fraction = [0n, 1n];
const sum = (all: readonly Fraction[]): Fraction => all.reduce(plus, nothing);

const sideText = (sign: string, at: Side): string =>
  at === undefined ? '' : `${sign}${hundredths(at.hundredths)} ${at.kind}`;

const toleranceText = ({ under, over }: Line, division: number): string =>
  `${[sideText('-', under), sideText('+', over)].filter(Boolean).join(' ')}, at least ${hundredths(division * 3)} g`;

const sheetOf = ({ lines, division }: Case): string => `sheet: Invented at random
code: APT
revision: 1
makes: {piece: bag, count: 1, fill: ${hundredths(lines.reduce((total, each) => total + each.target, 0))} g}
materials:
  soda: {name: Soda, lot: none}
phases:
  - phase: Base
    vessel: {name: bowl}
    steps:
${lines.map(each => `      - add: soda\n        amount: ${hundredths(each.target)} g\n        tolerance: ${toleranceText(each, division)}\n`).join('')}`;

/** The exact window: a floor of three divisions widens each side that there is. */
const windowOf = (
  { target, under, over }: Line,
  division: number,
): readonly [Fraction, Fraction] => {
  const widthOf = (at: Side): Fraction => {
    if (at === undefined) return nothing;
    const width: Fraction =
      at.kind === 'g' ? grams(at.hundredths) : by(grams(target), [BigInt(at.hundredths), 10_000n]);
    return order(width, grams(division * 3)) < 0n ? grams(division * 3) : width;
  };
  return [minus(grams(target), widthOf(under)), plus(grams(target), widthOf(over))];
};

const verdictOf = (total: Fraction, [low, high]: readonly [Fraction, Fraction]): Verdict => {
  if (order(total, low) < 0n) return 'under';
  return order(total, high) > 0n ? 'over' : 'in';
};

/** Whole divisions, as a display shows them. */
const display = (divisions: bigint, division: number): string =>
  hundredths(Number(divisions) * division).replace(/\.?0+$/, '');

const divisionsBelow = ([num, den]: Fraction, division: number): bigint =>
  wholeBelow([num * 100n, den * BigInt(division)]);

/** The total that is aimed at, in whole divisions. */
const aimOf = (line: Line, act: Act, division: number): bigint => {
  const { target } = line;
  const [low, high] = windowOf(line, division);
  const step = BigInt(act.beyond);
  switch (act.aim) {
    case 'low':
      return -divisionsBelow([-low[0], low[1]], division) - step;
    case 'high':
      return divisionsBelow(high, division) + step;
    case 'target':
      return divisionsBelow(grams(target), division);
    case 'anywhere':
      return divisionsBelow(by(grams(target), [BigInt(act.permille), 1000n]), division);
  }
};

const tareDivisions = 3000n;

/** One line, kept a second time: the pours before the present one, and the present one, in divisions. */
interface Kept {
  readonly earlier: bigint;
  readonly present: bigint;
  readonly isOver: boolean;
  /** How the last reading was taken. */
  readonly way?: Act['kind'];
}

const reading = (
  step: number,
  act: Act,
  net: bigint,
  standing: bigint,
  division: number,
): readonly Intent[] => {
  const show = (divisions: bigint): string => display(divisions, division);
  if (act.kind === 'difference') {
    return [
      { type: 'read', step, way: 'difference', part: 'before', typed: show(net + 700n) },
      { type: 'read', step, way: 'difference', part: 'after', typed: show(700n) },
    ];
  }
  const way = act.kind === 'gross' ? 'gross' : 'net';
  return [
    {
      type: 'read',
      step,
      way,
      part: 'display',
      typed: show(way === 'gross' ? standing + net : net),
    },
  ];
};

interface Walked {
  readonly story: Story;
  readonly kept: Kept;
}

const judgedTotal = (story: Story, step: number): readonly [Fraction, Verdict | undefined] => {
  const { total, verdict } = additionState(story, step);
  return [[total.num, total.den], verdict];
};

/** Does one act on the line of a step, and compares what the machine makes of it. */
const walkAct = (
  { story, kept: last }: Walked,
  step: number,
  at: Line,
  act: Act,
  division: number,
  before: bigint,
): Walked => {
  const isOtherWay =
    act.kind !== 'tare' && !last.isOver && last.way !== undefined && last.way !== act.kind;
  // What is read in another way is a pour of its own.
  const kept = isOtherWay ? { ...last, earlier: last.earlier + last.present, present: 0n } : last;
  const net = aimOf(at, act, division) - kept.earlier;
  if (act.kind === 'tare' && !kept.isOver && kept.present > 0n) {
    return {
      story: story.after({ type: 'tare', step }),
      kept: { ...kept, earlier: kept.earlier + kept.present, present: 0n },
    };
  }
  if (net <= 0n || (kept.isOver ? net >= kept.present : net <= kept.present))
    return { story, kept: last };
  const standing = tareDivisions + before + kept.earlier;
  const intents: readonly Intent[] = kept.isOver
    ? [{ type: 'take-back', step, way: 'net', part: 'display', typed: display(net, division) }]
    : reading(step, act, net, standing, division);
  const next = story.after(...intents);
  const total = by([kept.earlier + net, 1n], grams(division));
  const verdict = verdictOf(total, windowOf(at, division));
  const [found, judged] = judgedTotal(next, step);
  expect(order(found, total)).toBe(0n);
  expect(judged).toBe(verdict);
  const way = kept.isOver || act.kind === 'tare' ? 'net' : act.kind;
  return { story: next, kept: { ...kept, present: net, isOver: verdict === 'over', way } };
};

const isOpenStep = (story: Story, step: number): boolean =>
  openRun(story).steps[step - 1]?.status !== 'done';

const walkLine = (
  story: Story,
  step: number,
  at: Line,
  division: number,
  before: bigint,
): Walked => {
  let now: Walked = { story, kept: { earlier: 0n, present: 0n, isOver: false } };
  for (const act of at.acts) {
    if (!isOpenStep(now.story, step)) break;
    now = walkAct(now, step, at, act, division, before);
  }
  return isOpenStep(now.story, step)
    ? { ...now, story: now.story.after({ type: 'accept', step, reason: 'bag is empty' }) }
    : now;
};

test('totals and verdicts are those of rational arithmetic written apart', () => {
  fc.assert(
    fc.property(aCase, ({ division, lines }) => {
      const scale = scaleOf('bench', '20000', hundredths(division));
      let story = nothingYet().after(beginning(sheetOf({ division, lines }), [scale]), {
        type: 'weigh-vessel',
        vessel: 'bowl',
        typed: display(tareDivisions, division),
      });
      let before = 0n;
      for (const [index, each] of lines.entries()) {
        const walked = walkLine(story, index + 1, each, division, before);
        story = walked.story;
        before += walked.kept.earlier + walked.kept.present;
      }
      const all = by([before, 1n], grams(division));
      const bowl = openRun(story).vessels.get('bowl');
      expect(order([bowl?.contents.num ?? -1n, bowl?.contents.den ?? 1n], all)).toBe(0n);
      const result = buildResult(closedRun(story.after({ type: 'close' })));
      const nets = result.additions.map(({ net }): Fraction => {
        const [whole = '', decimals = ''] = net.split('.');
        return [BigInt(whole + decimals), 10n ** BigInt(decimals.length)];
      });
      expect(order(sum(nets), all)).toBe(0n);
      expect(result.additions.map(each => each.verdict)).toEqual(
        lines.map((each, index) => verdictOf(nets[index] ?? nothing, windowOf(each, division))),
      );
    }),
    { numRuns: Math.ceil(cases(1000) / 5), seed },
  );
});
