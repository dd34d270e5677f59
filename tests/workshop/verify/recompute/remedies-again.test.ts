import * as fc from 'fast-check';
import { expect, test } from 'vitest';
import { readNumber } from '../../../../src/core/quantity/decimal.ts';
import { ratioOf } from '../../../../src/core/quantity/quantity.ts';
import { toWhole } from '../../../../src/core/quantity/rounding.ts';
import { remedies } from '../../../../src/core/remedy/remedies.ts';
import type { Situation } from '../../../../src/core/remedy/situation.ts';
import { remedyText } from '../../../../src/core/run/remedy-text.ts';
import type { Standing } from '../../../../src/workshop/verify/recompute/remedy/finish.ts';
import type { Place } from '../../../../src/workshop/verify/recompute/remedy/places.ts';
import { remediesAgain } from '../../../../src/workshop/verify/recompute/remedy/remedies-again.ts';
import { cases, seed } from '../../../helpers/cases.ts';
import { type GivenLine, givenLines } from '../../../helpers/remedy-given.ts';
import { everything, situationOf, windowsOnly } from '../../../helpers/remedy-scene.ts';
import { percent, tolerance } from '../../../helpers/sheet.ts';

const placeAt = (key: string, isClosed = false): Place => ({ key, vessel: key, isClosed });

/** The same batch, as the second working out has it. */
const standingFrom = (situation: Situation): Standing => {
  const { vessels } = situation;
  return {
    ...situation,
    lines: situation.lines.map(({ vessel, isClosed, scale, ...line }) => {
      const least = toWhole(ratioOf<'g'>(scale.leastLoad, scale.readability), 'up');
      return {
        ...line,
        place: placeAt(vessel, isClosed),
        division: scale.readability,
        leastDivisions: least < 1n ? 1n : least,
        capacity: scale.capacity,
      };
    }),
    adjusts: situation.adjusts.map(({ vessel, ...each }) => ({ ...each, place: placeAt(vessel) })),
    next: ({ key }) => {
      const into = vessels.get(key)?.into;
      return into === undefined ? undefined : placeAt(into);
    },
    holds: key => vessels.get(key)?.holds,
    eachPiece: situation.perPiece,
  };
};

const expectSame = (given: Situation, which?: string): void => {
  const situation = { ...given, stock: new Map() };
  expect(remediesAgain(standingFrom(situation)), which).toEqual(
    remedies(situation).map(remedyText),
  );
};

// The first three rows of correction.md's table, and the last three.
const three = (first: string, second: string): readonly GivenLine[] => [
  { target: '600', in: first },
  { target: '300', in: second },
  { target: '100' },
];
test.each<readonly [string, Situation, string, readonly string[], readonly string[]]>([
  ['one over', givenLines(three('600.0', '312.0')), '104/101', ['17.8'], ['103']],
  ['none over', givenLines(three('600.0', '302.9')), '1/1', [], ['100']],
  ['two over', givenLines(three('604.0', '315.0')), '105/101', ['19.8'], ['104']],
  [
    'one side',
    givenLines([
      { target: '100', in: '100.0', tolerance: tolerance('0%', '1%') },
      { target: '300', in: '309.1' },
    ]),
    '3091/3030',
    ['2.1'],
    [],
  ],
])('%s: the least stretch of correction.md', (_name, situation, stretch, topUps, targets) => {
  const [, least] = remediesAgain(standingFrom(situation));
  const { num, den } = readNumber(stretch)!;
  expect(least).toMatchObject({ possible: true, stretch: `${num}/${den}` });
  expect(least?.topUps?.map(each => each.mass)).toEqual(topUps);
  expect(least?.targets?.map(each => each.mass)).toEqual(targets);
});

test('a limit that the least stretch breaks leads to whole pieces above it', () => {
  const limit = {
    kind: 'share',
    material: 'm2',
    most: percent('30.2'),
    place: { line: 1, column: 1 },
  } as const;
  const standing = standingFrom(givenLines(three('600.0', '312.0'), { limits: [limit] }));
  const [, least, pieces] = remediesAgain(standing);
  expect(least).toEqual({
    kind: 'least-stretch',
    possible: false,
    reason: 'limit',
    stretch: '104/101',
  });
  expect(pieces).toMatchObject({
    stretch: '19/18',
    topUps: [
      { n: 1, mass: '33.3' },
      { n: 2, mass: '4.7' },
    ],
    targets: [{ n: 3, mass: '105.6' }],
    forcedBy: 'limit',
  });
});

test('random situations come out the same, number by number', () => {
  fc.assert(
    fc.property(fc.gen(), fc.boolean(), (g, isPlain) => {
      expectSame(situationOf(isPlain ? windowsOnly(g) : everything(g)));
    }),
    { numRuns: cases(400), seed },
  );
});

const limitOn = (n: number) =>
  ({
    kind: 'share',
    material: `m${n}`,
    most: percent('0.4'),
    place: { line: 1, column: 1 },
  }) as const;

test('a sheet of 200 lines is worked out within a second', () => {
  // Invented: every third line over, limits that every stretch breaks.
  const lines = Array.from({ length: 200 }, (_, at): GivenLine => {
    const target = 100 + at;
    return { target: `${target}`, in: at % 3 === 0 ? `${target * 1.03}` : `${target}` };
  });
  const situation = givenLines(lines, { limits: [1, 2, 3].map(limitOn) });
  const start = process.cpuUsage().user;
  remediesAgain(standingFrom(situation));
  expect((process.cpuUsage().user - start) / 1e6).toBeLessThan(1);
});
