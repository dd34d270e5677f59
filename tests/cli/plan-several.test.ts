import { copyFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { newHome } from '../helpers/program.ts';

const home = newHome();
const cedar = 'tests/fixtures/sheets/cedar-domes.yaml';
const tartlets = 'sheets/orange-tartlets.yaml';
const both = [`${tartlets}=36`, `${cedar}=24`];

interface Amount {
  readonly mass: string;
  readonly adjust?: string;
}

interface Printed {
  readonly sheets: readonly (Readonly<Record<string, unknown>> & { readonly sheet: string })[];
  readonly materials: readonly (Amount & {
    readonly name: string;
    readonly inci?: string;
    readonly parts: readonly (Amount & { readonly sheet: string })[];
  })[];
}

const hundredths = (text: string): number => Math.round(Number(text) * 100);

const run = (...args: readonly string[]) => home.run(['plan', ...args]);
const alone = (...args: readonly string[]): string => {
  const { status, stdout, stderr } = run(...args);
  expect({ status, stderr }).toEqual({ status: 0, stderr: '' });
  return stdout;
};

describe('plan of several sheets, as JSON', () => {
  const printed = JSON.parse(alone(...both, '--json')) as Printed;
  const material = (name: string) => printed.materials.find(each => each.name === name);

  it('has each sheet as it is alone', () => {
    expect(printed.sheets).toEqual([
      { sheet: tartlets, ...JSON.parse(alone(tartlets, '--pieces', '36', '--json')) },
      { sheet: cedar, ...JSON.parse(alone(cedar, '--pieces', '24', '--json')) },
    ]);
  });

  // By hand: 36 · 120 / 0.97 = 4453.6082… g, 0.75 · 0.6 of it 2004.1237…, on the scale 2004.1 g;
  // 24 · 95 / 0.98 = 2326.5306… g, 0.85 · 0.62 of it 1226.0816…, on the scale 1226.1 g.
  it('sums a material over the sheets, by its name', () => {
    expect(material('Sodium bicarbonate')).toEqual({
      name: 'Sodium bicarbonate',
      inci: 'Sodium Bicarbonate',
      mass: '3230.2',
      parts: [
        { sheet: tartlets, mass: '2004.1' },
        { sheet: cedar, mass: '1226.1' },
      ],
    });
  });

  // By hand: 0.85 · 0.024 · 2326.5306… = 47.4612… g.
  it('names only the sheets that take it', () => {
    expect(material('Cedarwood blend')?.parts).toEqual([{ sheet: cedar, mass: '47.46' }]);
  });

  // By hand: 15 mL · 0.998 g/mL · 36/24 and 12 mL · 0.998 g/mL · 24/36.
  it('keeps the most of adjust steps apart', () => {
    expect(material('Water')).toEqual({
      name: 'Water',
      inci: 'Aqua',
      mass: '0',
      adjust: '30.439',
      parts: [
        { sheet: tartlets, mass: '0', adjust: '22.455' },
        { sheet: cedar, mass: '0', adjust: '7.984' },
      ],
    });
  });

  it('sums all that is weighed in', () => {
    const targets = printed.sheets
      .flatMap(each => each['additions'] as readonly { readonly target: string }[])
      .reduce((total, { target }) => total + hundredths(target), 0);
    const fetched = printed.materials.reduce((total, { mass }) => total + hundredths(mass), 0);
    expect(fetched).toBe(targets);
  });
});

describe('plan of several sheets', () => {
  const text = alone(...both);

  it('begins with what to fetch, then has each sheet’s own table', () => {
    expect(text).toMatch(/^To fetch for 2 batches\n/);
    expect(text).toMatch(/Sodium bicarbonate +3\s230\.2\sg +2\s004\.1\sg +1\s226\.1\sg\n/);
    expect(text).toMatch(/Cedarwood blend +47\.46\sg +– +47\.46\sg\n {4}Parfum\n/);
    expect(text).toMatch(/Water, to adjust, at most +30\.4\sg +22\.5\sg +8\.0\sg\n/);
    expect(text).toContain(alone(tartlets, '--pieces', '36').trimEnd());
    expect(text).toContain(alone(cedar, '--pieces', '24').trimEnd());
  });

  it('plans a sheet without pieces at its own size, or at that of the option', () => {
    expect(alone(`${tartlets}=36`, cedar)).toContain(`2  ${cedar}: 36 × dome`);
    expect(alone(tartlets, `${cedar}=24`, '--pieces', '12')).toContain('12 × tartlet');
    expect(alone(tartlets, cedar, '--factor', '2')).toContain('48 × tartlet');
  });

  it('takes one sheet with its pieces as with --pieces', () => {
    expect(alone(`${cedar}=24`)).toBe(alone(cedar, '--pieces', '24'));
    expect(alone(`${cedar}=24`, '--json')).toBe(alone(cedar, '--pieces', '24', '--json'));
  });

  it('reads a file whose name ends like a size as a file', () => {
    const path = join(home.folder, 'domes=24');
    copyFileSync(cedar, path);
    expect(alone(path)).toContain('36 × dome');
    expect(alone(`${path}=12`)).toContain('12 × dome');
  });

  it.each([
    [[`${cedar}=1.5`, tartlets], 'whole number of pieces'],
    [[`${cedar}=0`, tartlets], 'whole number of pieces'],
    [[`${cedar}=`, tartlets], 'whole number of pieces'],
    [[`${cedar}=24`, '--pieces', '12'], 'leave the other size out'],
    [[...both, '--factor', '2'], 'leave the other size out'],
    [[cedar, tartlets, '--have', 'citric acid=1 kg'], 'one sheet'],
  ])('refuses %j with status 2', (args, hint) => {
    const { status, stdout, stderr } = run(...args);
    expect({ status, stdout }).toEqual({ status: 2, stdout: '' });
    expect(stderr).toContain(hint);
  });

  it('answers 3 for a sheet that is not there, and 1 where one cannot be made', () => {
    expect(run(cedar, 'nowhere.yaml=3').status).toBe(3);
    const { status, stdout } = run(`${cedar}=9999`, tartlets);
    expect(status).toBe(1);
    expect(stdout).toContain('error vessel-overflows');
  });
});
