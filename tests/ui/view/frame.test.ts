import * as fc from 'fast-check';
import { expect, test } from 'vitest';
import { unbegun } from '../../../src/core/run/state.ts';
import { cellWidth } from '../../../src/ui/view/cells.ts';
import { largeDigits } from '../../../src/ui/view/digits.ts';
import { layOut, type Shown } from '../../../src/ui/view/frame.ts';
import { helpRows } from '../../../src/ui/view/help.ts';
import { paperFor } from '../../../src/ui/view/paper.ts';
import { textOf } from '../../../src/ui/view/row.ts';
import { isTooSmall, tooSmallRows } from '../../../src/ui/view/too-small.ts';
import { cases, seed } from '../../helpers/cases.ts';
import { questionOf } from '../../helpers/fake-conversation.ts';
import { handMadeRun, withPoured, withStep } from '../../helpers/hand-made-run.ts';
import { adding, cedarDomes, phaseOf, sheetOf } from '../../helpers/sheet.ts';

const sizes = [
  [60, 20],
  [80, 24],
  [120, 40],
] as const;

const at0912 = { epochMs: Date.UTC(2027, 2, 4, 8, 12), offset: 60 };

const paper = (columns: number, rows: number, isAscii = false, now = at0912) =>
  paperFor({ columns, rows: rows - 1 }, isAscii, now);

const cedar = withPoured(handMadeRun(cedarDomes()), 3, '1839');

const shownAt = (step: number, change: Partial<Shown> = {}): Shown => ({
  run: cedar,
  question: questionOf({ step, ask: 'Weigh it in.' }),
  said: [],
  notices: [],
  ...change,
});

const linesOf = (shown: Shown, columns: number, rows: number, isAscii = false) => {
  const { above, below } = layOut(shown, paper(columns, rows, isAscii));
  return [...above.map(textOf), 'FIELD', ...below.map(textOf)];
};

const plain = (lines: readonly string[]): string => lines.join('\n').replaceAll('\u202f', ' ');

for (const [columns, rows] of sizes) {
  test(`fills ${columns} x ${rows} less one row, nothing wider, whatever step is in hand`, () => {
    for (const { n } of cedar.plan.steps) {
      const lines = linesOf(shownAt(n), columns, rows);
      expect(lines).toHaveLength(rows - 1);
      expect(Math.max(...lines.map(cellWidth))).toBeLessThanOrEqual(columns);
    }
  });

  test(`keeps target, window, scale, way, totals and help in view at ${columns} x ${rows}`, () => {
    const text = plain(linesOf(shownAt(4), columns, rows));
    expect(text).toContain('to add');
    expect(text).toContain('window 910.4 g to 928.7 g');
    expect(text).toContain('scale big');
    expect(text).toContain('reading net');
    expect(text).toContain('gross to expect 1 731.6 g');
    expect(text).toContain('in steel bowl 0.0 g');
    expect(text).toMatch(/^under -*\[=*\|=*\]-* over/m);
    expect(text).toMatch(/^help/m);
    expect(text).toMatch(/NOW +4 Citric acid/);
    expect(text).toContain('PRACTICE');
  });

  test(`keeps the same in view at ${columns} x ${rows} when much is said`, () => {
    const said = [{ tone: 'plain', text: 'word '.repeat(200) } as const];
    const lines = linesOf(shownAt(4, { said }), columns, rows);
    expect(lines).toHaveLength(rows - 1);
    expect(plain(lines)).toContain('window 910.4 g to 928.7 g');
    expect(plain(lines)).toContain('help shows the rest');
    expect(plain(lines)).toContain('NOW');
  });
}

test('draws the target in large figures where there is room, and only there', () => {
  const figures = largeDigits('919.6', '\u2588') ?? [];
  const has = (columns: number, rows: number): boolean => {
    const text = linesOf(shownAt(4), columns, rows).join('\n');
    return figures.every(line => text.includes(line.trimEnd()));
  };
  expect(has(80, 24)).toBe(true);
  expect(has(72, 22)).toBe(true);
  expect(has(120, 40)).toBe(true);
  expect(has(71, 24)).toBe(false);
  expect(has(80, 21)).toBe(false);
  expect(plain(linesOf(shownAt(4), 60, 20))).toContain('to add  919.6 g');
});

test('shows what is left, and by how much it is over', () => {
  const under = withPoured(cedar, 4, '900');
  expect(plain(linesOf(shownAt(4, { run: under }), 60, 20))).toContain('still to add  19.6 g');
  const over = withPoured(cedar, 4, '950');
  expect(plain(linesOf(shownAt(4, { run: over }), 60, 20))).toContain('over the target by  30.4 g');
});

test('shows four states of a line that differ without any colour', () => {
  const frames = ['0', '900', '919.6', '950'].map(grams =>
    plain(
      linesOf(shownAt(4, { run: grams === '0' ? cedar : withPoured(cedar, 4, grams) }), 60, 20),
    ),
  );
  expect(new Set(frames).size).toBe(4);
  expect(frames[0]).toContain('no reading yet');
  expect(frames[1]).toContain('UNDER \u221219.6 g');
  expect(frames[2]).toContain('in window');
  expect(frames[3]).toContain('OVER +30.4 g');
});

test('tells the way of reading that the question asks for', () => {
  const question = questionOf({ step: 4, way: 'gross' });
  const text = plain(linesOf(shownAt(4, { question }), 80, 24));
  expect(text).toContain('reading gross');
  expect(text).not.toContain('should show');
});

const long = sheetOf(
  [
    phaseOf(
      'Bowl',
      Array.from({ length: 60 }, (_, at) => adding(`material ${at}`, `${at + 1000}g`)),
    ),
  ],
  { basis: 'absolute' },
);

test('shows consecutive steps with now among them, and counts the others rightly', () => {
  const run = handMadeRun(long);
  for (const [columns, rows] of [...sizes, [60, 22], [200, 60]] as const) {
    for (const step of [1, 2, 30, 59, 60]) {
      const text = plain(linesOf(shownAt(step, { run }), columns, rows));
      const numbers = [...text.matchAll(/(?:^|\s)(?:NOW|done)? +(\d+) material/gm)].map(m =>
        Number(m[1]),
      );
      const first = numbers[0] ?? 0;
      const last = numbers.at(-1) ?? 0;
      expect(numbers).toEqual(Array.from({ length: last - first + 1 }, (_, i) => first + i));
      expect(text).toMatch(new RegExp(`NOW +${step} material`));
      expect(text.includes(`${first - 1} above`)).toBe(first > 1);
      expect(text.includes(`${60 - last} below`)).toBe(last < 60);
    }
  }
});

const names = fc.array(fc.constantFrom('Citric acid', 'wasser', '水', 'é', '😀', ' '), {
  minLength: 1,
  maxLength: 30,
});

test('keeps every number whole with its unit, whatever the names and the width', () => {
  fc.assert(
    fc.property(names, fc.integer({ min: 60, max: 200 }), (parts, columns) => {
      const name = parts.join('');
      const base = cedarDomes();
      const materials = new Map(
        [...base.materials].map(([key, material]) => [key, { ...material, name }]),
      );
      const run = withPoured(handMadeRun({ ...base, materials, name }), 3, '1839');
      const lines = linesOf(shownAt(4, { run }), columns, 24);
      expect(Math.max(...lines.map(cellWidth))).toBeLessThanOrEqual(columns);
      const text = plain(lines);
      for (const number of ['910.4 g to 928.7 g', '1 731.6 g', '1 839.0 g', '919.6 g']) {
        expect(text).toContain(number);
      }
    }),
    { numRuns: cases(60), seed },
  );
});

test('shows nothing of a sheet that a terminal could obey', () => {
  const base = cedarDomes();
  const name = 'a\u001b[2Jb\tc\rd\u202ee\u0007';
  const materials = new Map(
    [...base.materials].map(([key, material]) => [key, { ...material, name, hazard: name }]),
  );
  const run = handMadeRun({ ...base, materials, name });
  const text = linesOf(shownAt(4, { run, notices: [name] }), 120, 40).join('\n');
  expect(text).toContain('a<U+001B>[2Jb<U+0009>c<U+000D>d<U+202E>e<U+0007>');
  expect(text.replaceAll('\n', '')).not.toMatch(/\p{Cc}|\u202e/u);
});

test('uses ASCII only where the terminal knows no more, and stays within its width', () => {
  for (const [columns, rows] of sizes) {
    const lines = linesOf(shownAt(4, { run: withPoured(cedar, 4, '900') }), columns, rows, true);
    expect(lines.join('')).toMatch(/^[ -~]*$/);
    expect(Math.max(...lines.map(each => each.length))).toBeLessThanOrEqual(columns);
  }
});

test('shows the time of a hold since, left and at most', () => {
  const started = withStep(cedar, 11, { status: 'running', startedAt: at0912 });
  const question = questionOf({ kind: 'hold-running', step: 11, field: 'enter' });
  const frame = (seconds: number): string => {
    const now = { ...at0912, epochMs: at0912.epochMs + seconds * 1000 };
    const shown = shownAt(11, { run: started, question });
    return layOut(shown, paper(60, 20, false, now))
      .above.map(textOf)
      .join('\n');
  };
  expect(frame(61)).toContain('08:59');
  expect(frame(61)).toContain('since the start 1 min 1 s   at least 10 min   at most 30 min');
  expect(frame(601)).toContain('WAITED LONG ENOUGH, left until the most\n19:59');
  expect(frame(1801)).toContain('LATE BY\n00:01');
});

test('keeps the practice mark, step and time whole beside long names', () => {
  const run = { ...cedar, person: 'Augusta Ada King, Countess of Lovelace' };
  for (const [columns, rows] of sizes) {
    const [first = ''] = linesOf(shownAt(11, { run }), columns, rows);
    expect(first).toMatch(/^CDR-2027-014 {3}PRACTICE .* step 11 of 15 {2}Augusta.* {2}09:12$/);
  }
});

test('shows what was counted so far', () => {
  const entries = [
    { item: 'good', value: '35' },
    { item: 'crumbs', value: '12.5' },
  ] as const;
  const run = withStep(cedar, 15, { kind: 'tally', entries });
  const question = questionOf({ kind: 'tally', step: 15 });
  expect(plain(linesOf(shownAt(15, { run, question }), 60, 20))).toContain(
    'good 35   crumbs 12.5 g',
  );
});

test('lists what to wear and to have ready', () => {
  const text = plain(
    linesOf(shownAt(1, { question: questionOf({ kind: 'tick', step: 1 }) }), 60, 20),
  );
  expect(text).toContain('- dust mask\n- goggles');
});

test('has a screen before anything is begun', () => {
  const question = questionOf({ kind: 'who', field: 'text', ask: 'Who makes this batch?' });
  const lines = linesOf({ run: unbegun, question, said: [], notices: [] }, 80, 24);
  expect(lines).toHaveLength(23);
  expect(plain(lines)).toContain('Who makes this batch?');
});

test('never cuts off the way to help', () => {
  const commands = Array.from({ length: 40 }, (_, at) => ({ word: `word${at}`, does: 'x' }));
  const question = questionOf({ step: 4, commands, enter: 'takes all of it at once' });
  for (const columns of [60, 80, 120]) {
    const last = linesOf(shownAt(4, { question }), columns, 24).at(-1) ?? '';
    expect(last).toMatch(/^help {3}Enter: takes all of it at once/);
    expect(last).toMatch(/word\d+$/);
  }
});

test('names material, what is left and the size where the window is too small', () => {
  expect(isTooSmall(60, 20)).toBe(false);
  expect(isTooSmall(59, 20)).toBe(true);
  expect(isTooSmall(60, 19)).toBe(true);
  const text = tooSmallRows(shownAt(4), 30, paper(30, 8)).map(textOf);
  expect(text.length).toBeLessThanOrEqual(7);
  expect(text.join(' ')).toContain('Citric acid');
  expect(text.join(' ')).toContain('919.6 g left');
  expect(text.join(' ')).toContain('needs 60 x 20');
});

test('lists every command in help, over several screens if need be', () => {
  const commands = Array.from({ length: 40 }, (_, at) => ({
    word: `word${at}`,
    does: `does ${at}`,
  }));
  const question = questionOf({ step: 4, commands });
  const seen = Array.from({ length: 60 }, (_, top) =>
    helpRows({ question, said: [] }, { top }, paper(60, 20)).map(textOf),
  );
  for (const screen of seen) {
    expect(screen).toHaveLength(19);
    expect(screen.at(-1)).toBe('Enter or Esc closes help');
  }
  for (const { word } of commands) expect(seen.flat().join('\n')).toContain(word);
});

test('names a line that waits behind help', () => {
  const text = helpRows(
    { question: questionOf(), said: [] },
    { top: 0, held: '12.5' },
    paper(80, 24),
  ).map(textOf);
  expect(text.join('\n')).toContain('12.5 waiting');
});
