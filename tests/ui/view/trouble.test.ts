import * as fc from 'fast-check';
import { expect, test } from 'vitest';
import { askOver } from '../../../src/core/dialogue/ask-over.ts';
import type { Question } from '../../../src/core/dialogue/conversation.ts';
import { evolveChosen, evolveLeft } from '../../../src/core/run/evolve-remedy.ts';
import type { OpenRun } from '../../../src/core/run/state.ts';
import { cellWidth } from '../../../src/ui/view/cells.ts';
import { largeDigits } from '../../../src/ui/view/digits.ts';
import { layOut, type Shown } from '../../../src/ui/view/frame.ts';
import { helpRows } from '../../../src/ui/view/help.ts';
import { paperOf } from '../../../src/ui/view/paper.ts';
import { textOf } from '../../../src/ui/view/row.ts';
import { cases, seed } from '../../helpers/cases.ts';
import { questionOf } from '../../helpers/fake-conversation.ts';
import { handMadeRun, withPoured, withStep } from '../../helpers/hand-made-run.ts';
import { adding, cedarDomes, mass, phaseOf, sheetOf } from '../../helpers/sheet.ts';

const sizes = [
  [60, 20],
  [72, 22],
  [80, 24],
  [100, 40],
  [120, 40],
  [200, 60],
] as const;

const at0912 = { epochMs: Date.UTC(2027, 2, 4, 8, 12), offset: 60 };

const linesOf = (shown: Shown, columns: number, rows: number): readonly string[] => {
  const { above, below } = layOut(shown, paperOf({ columns, rows }, false, at0912));
  return [...above.map(textOf), 'FIELD', ...below.map(textOf)].map(each =>
    each.replaceAll('\u202f', ' '),
  );
};

/** The hand-made run with the reading that step 4 was given, in the bowl where it went. */
const pouredAt4 = (grams: string): OpenRun => {
  const run = withPoured(withPoured(handMadeRun(cedarDomes()), 3, '1839'), 4, grams);
  const bowl = { tare: mass('812'), contents: mass('2795.4'), isOpen: true, lastStep: 4 };
  const typed = { typed: grams, unit: 'g', mass: grams, scale: 'big' };
  const inBowl = { ...run, vessels: new Map([...run.vessels, ['steel bowl', bowl]]) };
  return withStep(inBowl, 4, {
    kind: 'addition',
    lastReading: { seq: 9, way: 'net', part: 'display', reading: typed },
  });
};

const over = pouredAt4('956.4');

const shownOver = (change: Partial<Shown> = {}): Shown => ({
  run: over,
  question: askOver(over, 4),
  said: [{ tone: 'stop', text: 'Citric acid: 956.4 g, over by 27.7 g. In steel bowl: 2 795.4 g.' }],
  notices: [],
  ...change,
});

const words = ['take back', 'stretch', 'pieces', 'proportion', 'accept', 'scrap', 'mistyped'];

const rowOf = (lines: readonly string[], word: string): number =>
  lines.findIndex(line => line.startsWith(`${word} `));

for (const [columns, rows] of sizes) {
  test(`shows what was read, what it should be and every way out at ${columns} x ${rows}`, () => {
    const lines = linesOf(shownOver(), columns, rows);
    expect(lines).toHaveLength(rows - 1);
    expect(Math.max(...lines.map(cellWidth))).toBeLessThanOrEqual(columns);
    const text = lines.join('\n');
    expect(text).toContain('read 956.4 g net');
    expect(text).toContain('in so far 956.4 g');
    expect(text).toContain('window 910.4 g to 928.7 g');
    expect(text).toContain('OVER +36.8 g');
    expect(text).toMatch(/in steel bowl/);
    const found = words.map(word => rowOf(lines, word));
    expect(found).not.toContain(-1);
    expect(found).toEqual(found.toSorted((a, b) => a - b));
    expect(text).toMatch(/^stretch +batch 2\.98 % bigger, 3 593\.7 g,/m);
    expect(text).toMatch(/^take back +lift out about/m);
  });
}

test('shows every number of every way out at 80 x 24, and lets the list and the figures go for it', () => {
  const question = askOver(over, 4);
  const flat = linesOf(shownOver(), 80, 24).join(' ').replaceAll(/\s+/g, ' ');
  for (const { does } of question.choices ?? []) {
    expect(flat).toContain(does.replaceAll('\u202f', ' '));
  }
  expect(flat).not.toContain('NOW');
  expect(linesOf(shownOver(), 80, 40).join('\n')).toMatch(/NOW +4 Citric acid/);
});

test('does not repeat the ways out in the last line', () => {
  expect(linesOf(shownOver(), 80, 24).at(-1)).toBe(
    'help   leave   note   amend   turn   pause   hand over',
  );
});

test('tells why the other ways are none where there is room, and that help does elsewhere', () => {
  const question: Question = {
    ...askOver(over, 4),
    choices: askOver(over, 4).choices?.slice(1, 6) ?? [],
    impossible: [
      'take back is not possible: invented reason',
      `pieces is not possible: ${'invented '.repeat(20)}`,
    ],
  };
  expect(linesOf(shownOver({ question }), 100, 40).join('\n')).toContain('invented reason');
  const small = linesOf(shownOver({ question }), 60, 20).join('\n');
  expect(small).toContain('... help shows the rest');
  const help = helpRows(
    { question, said: [] },
    { top: 0 },
    paperOf({ columns: 80, rows: 60 }, false, at0912),
  );
  expect(help.map(textOf)).toContain('take back is not possible: invented reason');
});

const texts = fc.string({
  unit: fc.constantFrom('salt', ' ', '1 234.5 g', ', ', '水'),
  maxLength: 90,
});

test('never loses a way out, the reading, the window or the total, whatever is said and however long', () => {
  fc.assert(
    fc.property(
      fc.constantFrom(...sizes),
      fc.array(texts, { minLength: 7, maxLength: 7 }),
      texts,
      texts,
      fc.array(texts, { maxLength: 6 }),
      ([columns, rows], does, ask, said, impossible) => {
        const choices = words.map((word, at) => ({ word, does: does[at] ?? '' }));
        const question = { ...askOver(over, 4), choices, impossible, ask };
        const shown = shownOver({
          question,
          said: [{ tone: 'mend', text: said }],
          notices: [said],
        });
        const lines = linesOf(shown, columns, rows);
        expect(lines).toHaveLength(rows - 1);
        expect(Math.max(...lines.map(cellWidth))).toBeLessThanOrEqual(columns);
        const text = lines.map(line => `${line} `).join('\n');
        for (const word of words) expect(text).toMatch(new RegExp(`^${word} `, 'm'));
        expect(text).toContain('read 956.4 g net');
        expect(text).toContain('window 910.4 g to 928.7 g');
        expect(text).toContain('in so far 956.4 g');
        expect(text).toContain('in steel bowl');
      },
    ),
    { numRuns: cases(200), seed },
  );
});

test('asks about a slip with the reading in large figures and both answers', () => {
  const question = questionOf({
    kind: 'slip',
    step: 4,
    field: 'enter',
    ask: 'Were two digits swapped? Type yes or no.',
    commands: [
      { word: 'yes', does: 'it was read wrongly' },
      { word: 'no', does: 'it was read rightly' },
      { word: 'help', does: 'says what works now' },
    ],
    isDeliberate: true,
  });
  const figures = largeDigits('956.4', '\u2588') ?? [];
  const text = linesOf(shownOver({ question }), 80, 24).join('\n');
  for (const line of figures) expect(text).toContain(line.trimEnd());
  expect(text).toMatch(/^yes +it was read wrongly$/m);
  expect(text).toMatch(/^no +it was read rightly$/m);
  const small = linesOf(shownOver({ question }), 60, 20).join('\n');
  expect(small).toContain('read 956.4 g net');
  expect(small).toMatch(/^no +it was read rightly$/m);
});

/** An invented remedy: only its numbers matter here. */
const stretched = evolveChosen(
  over,
  {
    type: 'remedy-chosen',
    step: 4,
    kind: 'whole-pieces',
    stretch: '19/18',
    topUps: [{ n: 1, mass: '102.4' }],
    targets: [],
    batchMass: '3684',
    pieces: 38,
    reason: 'invented',
  },
  at0912,
);

test('shows new targets, what is to be topped up and how much bigger the batch became', () => {
  const shown = { run: stretched, question: questionOf({ step: 3 }), said: [], notices: [] };
  for (const [columns, rows] of sizes) {
    const text = linesOf(shown, columns, rows).join('\n');
    expect(text).toMatch(columns < 80 ? /\+5\.56 %/ : /batch \+5\.56 %, 38 pieces/);
    expect(text).toMatch(/NOW +3 Sodium bicarb.* +1 839\.0 g {2}add 102\.4 g/);
    expect(text).toMatch(/step 3 of 15 .* 09:12/);
    expect(text).toContain('UNDER −102.4 g');
  }
});

test('marks a line that is to be topped up later as under', () => {
  const shown = { run: stretched, question: questionOf({ step: 5 }), said: [], notices: [] };
  expect(linesOf(shown, 80, 24).join('\n')).toMatch(/under +3 Sodium bicarbonate/);
});

test('says nothing of the size once the remedy was left', () => {
  const shown = {
    run: evolveLeft(stretched),
    question: questionOf({ step: 4 }),
    said: [],
    notices: [],
  };
  expect(linesOf(shown, 80, 24)[0]).not.toContain('%');
});

const heavy = handMadeRun(
  sheetOf([phaseOf('Tub', [adding('salt', '14000 g')])], { basis: 'absolute' }),
);

test('shows each of several weighings with what its display should say', () => {
  const question = questionOf({ step: 1, way: 'net' });
  const shown = { run: heavy, question, said: [], notices: [] };
  for (const [columns, rows] of sizes) {
    const first = linesOf(shown, columns, rows).join('\n');
    expect(first).toContain('weighing 1 of 2: 7 000.0 g');
    expect(first).toContain('in all 0.0 g of 14 000.0 g');
    expect(first).toContain('should show 7 000.0 g');
    expect(first).toContain('no reading yet');
  }
  const poured = withStep(withPoured(heavy, 1, '7003.2'), 1, {
    kind: 'addition',
    partVerdict: 'in',
  });
  const second = linesOf({ ...shown, run: poured }, 80, 24).join('\n');
  // The last weighing takes what is left.
  expect(second).toContain('weighing 2 of 2: 6 996.8 g');
  expect(second).toContain('in all 7 003.2 g of 14 000.0 g');
  expect(second).toContain('should show 6 996.8 g');
  expect(second).toContain('no reading yet');
});
