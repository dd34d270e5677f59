import { writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { newHome } from '../helpers/program.ts';
import { tempDir } from '../helpers/temp-dir.ts';

const home = newHome();

// Invented; the lines of correction.md's worked examples. 36 × 27.5 g / 0.99 = 1000 g.
const sheet = join(tempDir(), 'powder.yaml');
writeFileSync(
  sheet,
  `sheet: Plain powder
code: PLN
revision: 1
makes: {piece: dome, count: 36, fill: 27.5 g, loss: 1 %}
tolerance: 1 %
materials:
  soda: {name: Soda}
  citric acid: {name: Acid}
  oil: {name: Oil}
limits:
  - {of: citric acid, in: batch, most: 30.2 %}
phases:
  - phase: Base
    vessel: {name: bowl, holds: 3 kg}
    steps:
      - add: soda
        amount: 600 g
      - add: citric acid
        amount: 300 g
  - phase: Topping
    vessel: {name: jug}
    steps:
      - add: oil
        amount: 100 g
`,
);

interface Printed {
  readonly kind: string;
  readonly possible: boolean;
}

const remedy = (...options: readonly string[]): readonly Printed[] => {
  const { status, stdout, stderr } = home.run(['remedy', sheet, '--json', ...options]);
  expect({ status, stderr }).toEqual({ status: 0, stderr: '' });
  return (JSON.parse(stdout) as { readonly remedies: readonly Printed[] }).remedies;
};

const shown = (...options: readonly string[]): string =>
  home.run(['remedy', sheet, ...options]).stdout.replaceAll('\u202f', ' ');

const refused = (...options: readonly string[]) => {
  const { status, stderr } = home.run(['remedy', sheet, ...options]);
  return [status, stderr.trim()];
};

describe('remedy --json', () => {
  it('prints all six in their order, masses as decimal text in grams', () => {
    const printed = remedy('--poured', '1=600.0', '--poured', 'citric acid=312.0');
    expect(printed.map(({ kind, possible }) => [kind, possible])).toEqual([
      ['take-back', true],
      ['least-stretch', false],
      ['whole-pieces', true],
      ['exact-proportion', true],
      ['accept', false],
      ['scrap', true],
    ]);
    // By hand: 38/36 of 1000 g; 600 × 38/36 − 600 = 33.33, 300 × 38/36 − 312 = 4.67, 105.556 on the scale of 0.01 g.
    expect(printed[2]).toEqual({
      kind: 'whole-pieces',
      possible: true,
      reason: null,
      stretch: '19/18',
      topUps: [
        { n: 1, material: 'soda', mass: '33.3' },
        { n: 2, material: 'citric acid', mass: '4.7' },
      ],
      targets: [{ n: 3, material: 'oil', mass: '105.56' }],
      lifts: [],
      batchMass: '1055.5556',
      pieces: 38,
      surplus: '0.0000',
      forcedBy: 'It would break a limit: Acid in the batch, at most 30.20 %; it comes to 30.21 %.',
    });
    expect(printed[1]).toMatchObject({ code: 'limit', stretch: '104/101', topUps: [] });
  });

  it('takes a size as plan does, and a mass with its unit', () => {
    const printed = remedy('--pieces', '72', '--poured', '2=0.62 kg');
    expect(printed[3]).toMatchObject({ stretch: '31/30', batchMass: '2066.6667' });
  });

  it('stretches what is open beside a closed phase, as a surplus', () => {
    const printed = remedy('--closed', 'Base', '--poured', '3=103');
    expect(printed[1]).toMatchObject({
      possible: true,
      stretch: '103/101',
      batchMass: '1001.9802',
      pieces: 36,
      surplus: '1.9802',
    });
    expect(printed[2]).toMatchObject({ possible: false, code: 'pieces-fixed' });
  });
});

describe('remedy', () => {
  it('says what is over, what can be done and what cannot', () => {
    const text = shown('--poured', '1=600.0', '--poured', '2=312.0');
    expect(text).toContain('2 Acid: 312.0 g is over its window, 297.0 g to 303.0 g.');
    expect(text).toMatch(/whole pieces: 19\/18 .*38 × dome\n {4}top up {2}1 Soda {4}33\.3 g/);
    expect(text).toMatch(/Not possible:\nleast stretch, 104\/101: It would break a limit/);
  });

  it('counts a line that is not named as one with nothing in yet', () => {
    expect(shown('--poured', '2=303.5')).toMatch(/target {2}1 Soda {3}60\d\.\d g/);
    expect(shown()).toContain('All that was poured is in its window.');
  });

  it.each([
    [['--poured', '9=1'], 'No addition is called 9.'],
    [['--poured', 'salt=1'], 'No addition is called salt.'],
    [['--poured', '2=312,0'], '--poured takes a line and what is in of it'],
    [['--poured', '2=-1'], '--poured takes a line and what is in of it'],
    [['--poured', '2=1', '--poured', 'citric acid=2'], '--poured names line 2 twice.'],
    [['--closed', 'Glaze'], 'The sheet has no phase Glaze.'],
  ])('refuses %j as usage', (options, message) => {
    const [status, text] = refused(...options);
    expect(status).toBe(2);
    expect(text).toContain(message);
  });
});
