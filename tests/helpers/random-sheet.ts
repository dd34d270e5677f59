import * as fc from 'fast-check';
import { planBatch } from '../../src/core/plan/plan-batch.ts';
import { hasErrors } from '../../src/core/sheet/problem.ts';
import { readSheet } from '../../src/core/sheet/read-sheet.ts';
import { big, fine } from './plan.ts';

// Invented sheets: absolute, two phases, steps of every kind, sometimes limits and one bowl for both.
const materials = ['soda', 'acid', 'oil', 'water'] as const;

const add = fc
  .record({
    material: fc.constantFrom(...materials),
    grams: fc.integer({ min: 20, max: 900 }),
    tolerance: fc.constantFrom(undefined, '2 %', '-0 g +2 g', '-1 %', '0.3 g', '-1 % +0.5 g'),
    witness: fc.boolean(),
  })
  .map(({ material, grams, tolerance, witness }) => [
    `add: ${material}`,
    `amount: ${grams} g`,
    ...(tolerance === undefined ? [] : [`tolerance: ${tolerance}`]),
    ...(witness ? ['witness: yes'] : []),
  ]);

const adjust = fc
  .constantFrom('water', 'oil')
  .map(material => [`adjust: ${material}`, 'by: 1 mL', 'most: 4 mL', 'until: it holds together']);

const others = fc.constantFrom(
  ['wear: [gloves]'],
  ['ready: [table clean]'],
  ['do: Stir.'],
  ['measure: humidity', 'unit: "%"', 'most: 50'],
  ['hold: 10 min to 30 min', 'for: Rest.'],
  ['hold: 1 min', 'for: Settle.'],
);

const step = fc.oneof(
  { arbitrary: add, weight: 3 },
  { arbitrary: others, weight: 2 },
  { arbitrary: adjust, weight: 1 },
);

const yaml = (lines: readonly string[]): string =>
  lines.map((line, at) => `${at === 0 ? '      - ' : '        '}${line}\n`).join('');

const phase = (name: string, vessel: string, after: string, steps: readonly string[]): string =>
  `  - phase: ${name}\n    vessel: ${vessel}\n${after}    steps:\n${steps.join('')}`;

interface Parts {
  readonly first: readonly (readonly string[])[];
  readonly second: readonly (readonly string[])[];
  readonly named: boolean;
  readonly deadline: boolean;
  readonly tip: boolean;
  readonly shared: boolean;
  readonly after: boolean;
  readonly limits: readonly string[];
  readonly weigh: number;
}

const textOf = (parts: Parts): string => {
  const first = [
    ...parts.first.map(yaml),
    ...(parts.named ? [yaml(['do: Knead.', 'name: kneading'])] : []),
  ];
  const second = [
    ...parts.second.map(yaml),
    ...(parts.named && parts.deadline ? [yaml(['do: Press.', 'within: 15 min of kneading'])] : []),
    ...(parts.tip && !parts.shared ? [yaml(['tip: jug', 'into: bowl'])] : []),
  ];
  const bowl = '{name: bowl, tare: 300 g}';
  const limits = parts.limits.length === 0 ? '' : `limits:\n${parts.limits.join('')}`;
  return `sheet: Invented at random
code: RND
revision: 1
makes: {piece: bar, count: 10, fill: 100 g}
tolerance: 1 %, at least 0.2 g
materials:
  soda: {name: Soda}
  acid: {name: Acid}
  oil: {name: Oil, density: 0.9 g/mL}
  water: {name: Water, density: 1 g/mL, lot: none}
${limits}phases:
${phase('One', bowl, '', first)}${phase('Two', parts.shared ? bowl : '{name: jug, tare: 200 g}', parts.after ? '    after: One\n' : '', second)}finish:
  - hold: 1 h to 2 h
    for: Dry.
  - tally: {weigh: ${parts.weigh}}
`;
};

const isSound = (text: string): boolean => {
  const read = readSheet(text);
  return read.ok && !hasErrors(planBatch(read.sheet, { by: 'sheet' }, [big, fine]).problems);
};

// A material that no step takes is an error: each is added once at least.
const everyMaterial = materials.map(material => [`add: ${material}`, 'amount: 100 g']);

/** The text of a sheet that can be begun on the scales big and fine. */
export const randomSheet: fc.Arbitrary<string> = fc
  .record({
    first: fc.array(step, { maxLength: 4 }).map(steps => [...everyMaterial.slice(0, 2), ...steps]),
    second: fc.array(step, { maxLength: 4 }).map(steps => [...everyMaterial.slice(2), ...steps]),
    named: fc.boolean(),
    deadline: fc.boolean(),
    tip: fc.boolean(),
    shared: fc.boolean(),
    after: fc.boolean(),
    limits: fc.subarray([
      '  - {of: oil, in: batch, most: 90 %}\n',
      '  - {of: acid, in: One, least: 5 %}\n',
      '  - {ratio: [soda, acid], least: 0.1, most: 12}\n',
    ]),
    weigh: fc.integer({ min: 0, max: 2 }),
  })
  .map(textOf)
  .filter(isSound);
