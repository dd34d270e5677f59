import { describe, expect, test } from 'vitest';
import { ratio } from '../../../src/core/quantity/quantity.ts';
import { readSheet } from '../../../src/core/sheet/read-sheet.ts';
import { sheetOfText, sheetText, told } from '../../helpers/sheet-text.ts';

type Change = readonly [string, string];

const percentages: readonly Change[] = [
  ['amount: 600 g', 'amount: 60 %'],
  ['amount: 400 g', 'amount: 40 %'],
];

const topping = (lines: string): Change => [
  '      - hold: 10 min\n        for: Rest.\n',
  `  - phase: Topping\n    vessel: {name: jug}\n${lines}    steps:\n      - add: soda\n        amount: 100 %\n`,
];

const limited = (limit: string): Change => ['phases:', `limits:\n  - ${limit}\nphases:`];

const secondPhase = (vessel: string): Change => [
  '      - hold: 10 min\n        for: Rest.\n',
  `  - phase: More\n    vessel: ${vessel}\n    steps:\n      - add: soda\n        amount: 1 g\n`,
];

const waitingFor = (name: string): Change => ['phase: Base', `phase: Base\n    after: ${name}`];

const adjusting = (material: string): Change => [
  '      - hold',
  `      - adjust: ${material}\n        most: 100 g\n        until: it flows\n      - hold`,
];

const problemsOf = (...changes: readonly Change[]) =>
  told(readSheet(sheetText(...changes)).problems);

describe('percentages', () => {
  test('of a phase that stands alone need no share', () => {
    expect(sheetOfText(sheetText(...percentages)).phases[0]?.share).toEqual(ratio(1n));
  });

  test('of several phases need one in each, and the missing one is worked out', () => {
    const { problems } = readSheet(
      sheetText(...percentages, topping(''), ['phase: Base', 'phase: Base\n    share: 85 %']),
    );
    expect(problems).toMatchObject([{ code: 'missing-key', line: 18, mend: 'Add share: 15 %' }]);
  });

  test('add up as exact fractions', () => {
    const thirds: readonly Change[] = [
      ['amount: 600 g', 'amount: 66 2/3 %'],
      ['amount: 400 g', 'amount: 33 1/3 %'],
    ];
    expect(problemsOf(...thirds)).toEqual([]);
    expect(problemsOf(['amount: 600 g', 'amount: 66.67 %'], thirds[1] ?? ['', ''])).toEqual([
      'percent-sum 10:5',
    ]);
  });

  test('leave something for the rest, or are told so', () => {
    expect(problemsOf(['600 g', '100 %'], ['400 g', 'rest'])).toEqual(['percent-sum 16:17']);
    expect(problemsOf(['600 g', '99.9 %'], ['400 g', 'rest'])).toEqual([]);
  });

  test('give no share to a phase in which nothing is added', () => {
    const idle: Change = [
      '      - hold: 10 min\n        for: Rest.\n',
      '  - phase: Boxes\n    share: 5 %\n    vessel: {name: box}\n    steps:\n      - do: Fold.\n',
    ];
    expect(problemsOf(...percentages, idle)).toEqual(['percent-sum 18:12']);
    expect(problemsOf(...percentages, [idle[0], idle[1].replace('    share: 5 %\n', '')])).toEqual(
      [],
    );
  });

  test('do not stand beside absolute amounts, nor shares in an absolute sheet', () => {
    expect(problemsOf(['400 g', '40 %'])).toEqual(['mixed-amounts 16:17']);
    expect(problemsOf(['phase: Base', 'phase: Base\n    share: 85 %'])).toEqual([
      'mixed-amounts 11:12',
    ]);
  });
});

describe('a limit', () => {
  // Invented: 600 g of soda and 400 g of acid.
  test.each([
    ['{of: soda, in: batch, most: 60 %}', []],
    ['{of: soda, in: batch, most: 59.99 %}', ['limit-broken']],
    ['{of: soda, in: Base, least: 60 %}', []],
    ['{of: soda, in: Base, least: 60.01 %}', ['limit-broken']],
    ['{ratio: [soda, acid], least: 1.5, most: 1.5}', []],
    ['{ratio: [soda, acid], most: 1.49}', ['limit-broken']],
    [
      '{ratio: [soda, acid], least: 2, most: 1}',
      ['hold-backwards', 'limit-broken', 'limit-broken'],
    ],
  ])('%s', (limit, expected) => {
    const { problems } = readSheet(sheetText(limited(limit)));
    expect(problems.map(each => each.code)).toEqual(expected);
  });

  test('counts an adjust step of its material at the most, and of another one at nothing, for its most', () => {
    const limit = limited('{of: soda, in: batch, most: 60 %}');
    expect(problemsOf(limit, adjusting('soda'))).toEqual(['limit-broken 10:5']);
    expect(problemsOf(limit, adjusting('acid'))).toEqual([]);
  });

  test('counts them the other way round for its least', () => {
    const limit = limited('{of: soda, in: batch, least: 60 %}');
    expect(problemsOf(limit, adjusting('soda'))).toEqual([]);
    expect(problemsOf(limit, adjusting('acid'))).toEqual(['limit-broken 10:5']);
  });

  test('of a ratio to a material that may be absent has no most to keep', () => {
    const changes: readonly Change[] = [
      ['      - add: acid\n        amount: 400 g\n', ''],
      ['count: 10', 'count: 6'],
      adjusting('acid'),
    ];
    const { problems } = readSheet(
      sheetText(limited('{ratio: [soda, acid], most: 9}'), ...changes),
    );
    expect(problems).toMatchObject([{ code: 'limit-broken', mend: 'Change the amounts.' }]);
  });
});

describe('what an absolute sheet makes', () => {
  test('may differ from its total by half a per cent of the fill', () => {
    expect(problemsOf(['fill: 100 g', 'fill: 99.6 g'])).toEqual([]);
    expect(problemsOf(['fill: 100 g', 'fill: 100.4 g'])).toEqual([]);
  });

  test('is told as the fill and the count that would result, and is no error', () => {
    const reading = readSheet(sheetText(['fill: 100 g', 'fill: 90 g, loss: 2 %']));
    expect(reading).toMatchObject({
      ok: true,
      problems: [
        { code: 'makes-differs', severity: 'warning', mend: 'Write fill: 98 g, or count: 10.' },
      ],
    });
  });
});

describe('a vessel', () => {
  test('that a later phase names again goes on, empty or full of the same', () => {
    expect(problemsOf(secondPhase('{name: bowl}'))).toEqual([]);
    expect(problemsOf(secondPhase('{name: bowl, tare: 1 kg}'))).toEqual([]);
  });

  test('that was tipped into another takes nothing any more', () => {
    const tip: Change = [
      '      - add: acid',
      '      - tip: bowl\n        into: jug\n      - add: acid',
    ];
    expect(problemsOf(tip, secondPhase('{name: jug}'))).toEqual(['closed-vessel 17:9']);
  });
});

describe('a step', () => {
  test('of the finish has no vessel to add to', () => {
    const finish = 'finish:\n  - {add: soda, amount: 1 g}\n';
    expect(problemsOf(['        for: Rest.\n', `        for: Rest.\n${finish}`])).toEqual([
      'no-step-kind 20:5',
    ]);
  });

  test('may not count its time from itself or from a later one', () => {
    const within: Change = [
      'for: Rest.',
      'for: Rest.\n        name: rest\n        within: 1 h of rest',
    ];
    expect(problemsOf(within)).toEqual(['undeclared-step 20:17']);
  });

  test('whose kind is misspelt is read as the right one', () => {
    const { problems } = readSheet(sheetText(['- add: soda', '- ad: soda']));
    expect(problems).toMatchObject([
      { code: 'unknown-key', line: 13, column: 9, mend: 'Write “add” instead.' },
    ]);
  });
});

describe('phases', () => {
  test('may wait for each other in a line, not in a ring, and not for themselves', () => {
    expect(problemsOf(waitingFor('Base'))).toEqual(['phases-in-a-ring 10:5']);
    expect(problemsOf(waitingFor('[Nought]'))).toEqual(['undeclared-phase 11:13']);
  });

  test('cannot be called batch, which names the whole in limits', () => {
    expect(problemsOf(['phase: Base', 'phase: batch'])).toEqual(['repeated-name 10:12']);
  });
});
