/**
 * CPU time of all remedies for a sheet of 200 lines with limits, vessel, stock and an adjust step, and of a
 * general-purpose solver (HiGHS) for its least stretch alone. The sheet is invented. Prints JSON.
 */
import loader from 'highs';
import { groundOf } from '../../src/core/remedy/finish.ts';
import { remedies } from '../../src/core/remedy/remedies.ts';
import { raise, windowsReach } from '../../src/core/remedy/stretch.ts';
import type { Fraction } from '../helpers/fraction.ts';
import { asProgramme } from '../helpers/remedy-programme.ts';
import { type Scene, type SceneLine, situationOf, totalOf } from '../helpers/remedy-scene.ts';

const count = 200;

// A linear congruential generator: the same sheet at every run.
let state = 20_270_301;
const next = (below: number): bigint => {
  state = (state * 1_103_515_245 + 12_345) % 2 ** 31;
  return BigInt(state % below);
};

const percent: Fraction = [1n, 100n];

const lineAt = (n: number): SceneLine => {
  // Shares of 171000/49 g, as sheet.md's example has them.
  const target: Fraction = [171_000n * (20n + next(180)), 49n * 1000n];
  const tenths = (target[0] * 10n) / target[1];
  const off = n === 70 ? (tenths * 3n) / 100n : next(Number(tenths / 60n) + 1) - tenths / 120n;
  return {
    n,
    phase: n <= 150 ? 'Base' : 'Topping',
    material: `m${n}`,
    vessel: n <= 150 ? 'bowl' : 'jug',
    target,
    under: { kind: 'share', value: percent },
    over: { kind: 'share', value: percent },
    floor: [1n, 20n],
    d: [1n, 10n],
    leastLoad: [2n, 1n],
    capacity: [10_000n, 1n],
    net: n <= 140 ? [tenths + off, 10n] : [0n, 1n],
    state: n <= 140 ? 'poured' : 'open',
    isClosed: false,
    canTakeBack: n === 140,
  };
};

const lines = Array.from({ length: count }, (_, at) => lineAt(at + 1));
const share = (n: number): Fraction => {
  const all = totalOf(lines.map(each => each.target));
  const [num, den] = lines[n - 1]?.target ?? percent;
  return [num * all[1], den * all[0]];
};
const slack = ([num, den]: Fraction, thousandths: bigint): Fraction => [
  num * (1000n + thousandths),
  den * 1000n,
];

const scene: Scene = {
  lines,
  adjusts: [
    {
      phase: 'Base',
      material: 'water',
      vessel: 'bowl',
      net: [0n, 1n],
      most: [1198n, 100n],
      isDone: false,
    },
  ],
  vessels: new Map([
    [
      'bowl',
      {
        mass: totalOf(lines.filter(each => each.vessel === 'bowl').map(each => each.net)),
        holds: [200_000n, 1n],
        into: undefined,
      },
    ],
    ['jug', { mass: [0n, 1n], holds: [50_000n, 1n], into: undefined }],
  ]),
  stock: new Map([['m150', [50_000n, 1n]]]),
  limits: [70, 30, 160].map(n => ({
    kind: 'share' as const,
    material: `m${n}`,
    to: '',
    phase: undefined,
    least: undefined,
    most: slack(share(n), n === 70 ? 5n : 20n),
  })),
  pieces: 360,
};

const milliseconds = (work: () => unknown): number => {
  const begun = process.cpuUsage();
  work();
  const { user, system } = process.cpuUsage(begun);
  return (user + system) / 1000;
};

const median = (all: readonly number[]): number =>
  all.toSorted((a, b) => a - b)[Math.floor(all.length / 2)] ?? 0;

const rounds = (times: number, work: () => unknown): readonly number[] =>
  Array.from({ length: times }, () => milliseconds(work));

const situation = situationOf(scene);
const programme = asProgramme(scene);
const [first] = rounds(1, () => remedies(situation));
const highs = await (loader as unknown as typeof loader.default)();
const options = { output_flag: false, mip_rel_gap: 0 } as const;
const ground = groundOf(situation);
const s = raise(ground.lines, windowsReach(ground.lines));

// Side by side: a round of each in turn.
const ours: number[] = [];
const theirs: number[] = [];
for (let round = 0; round < 5; round += 1) {
  ours.push(...rounds(20, () => remedies(situation)));
  theirs.push(...rounds(1, () => highs.solve(programme, options)));
}

process.stdout.write(
  `${JSON.stringify({
    lines: count,
    kinds: remedies(situation).map(
      each => `${each.kind} ${each.possible ? 'offered' : each.reason.code}`,
    ),
    first,
    ours: median(ours),
    theirs: median(theirs),
    difference: Math.abs(
      Number(s?.num ?? 0n) / Number(s?.den ?? 1n) - highs.solve(programme, options).ObjectiveValue,
    ),
  })}\n`,
);
