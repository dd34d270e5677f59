import { describe, expect, it } from 'vitest';
import { newHome } from '../helpers/program.ts';

const home = newHome();
const cedar = 'tests/fixtures/sheets/cedar-domes.yaml';

interface Printed {
  readonly batch: { readonly mass: string; readonly pieces: number };
  readonly additions: readonly Readonly<Record<string, unknown>>[];
  readonly findings: readonly Readonly<Record<string, unknown>>[];
}

const plan = (...options: readonly string[]): Printed => {
  const { status, stdout, stderr } = home.run(['plan', cedar, '--json', ...options]);
  expect({ status, stderr }).toEqual({ status: 0, stderr: '' });
  return JSON.parse(stdout) as Printed;
};

const line = (
  n: number,
  phase: string,
  material: string,
  target: string,
  low: string,
  high: string,
  scale: string,
) => ({ n, phase, material, target, low, high, scale, weighings: 1 });

describe('plan --json', () => {
  // By hand: 36 × 95 g / 0.98 = 171000/49 g = 3489.79591…; Base is 85 % of it, Topping 15 %. Bicarbonate:
  // 0.85 × 0.62 = 0.527 of it, 1839.1224 g; 1 % of it each way is 1820.7312 to 1857.5136, and the
  // multiples of 0.1 g inside are 1820.8 to 1857.5. The others in the same way, with 0.31, 0.024 (−2 % +1 %),
  // 0.046 of Base, and 0.7 and 0.3 of Topping; up to 200 g on the scale of 0.01 g.
  it('prints the batch, its additions and the findings, masses as decimal text in grams', () => {
    const printed = plan();
    expect(Object.keys(printed)).toEqual(['batch', 'additions', 'findings']);
    expect(printed.batch).toEqual({ mass: '3489.7959', pieces: 36 });
    expect(printed.additions).toEqual([
      line(1, 'Base', 'bicarbonate', '1839.1', '1820.8', '1857.5', 'big'),
      line(2, 'Base', 'citric acid', '919.6', '910.4', '928.7', 'big'),
      line(3, 'Base', 'cedar blend', '71.19', '69.77', '71.9', 'fine'),
      line(4, 'Base', 'cornflour', '136.45', '135.09', '137.81', 'fine'),
      line(5, 'Topping', 'cocoa butter', '366.4', '362.8', '370', 'big'),
      line(6, 'Topping', 'stearic acid', '157.04', '155.48', '158.61', 'fine'),
    ]);
    expect(printed.findings.map(each => Object.keys(each))).toEqual([
      ['code', 'severity', 'message', 'mend', 'line', 'column'],
    ]);
    expect(printed.findings[0]).toMatchObject({ code: 'scales-assumed', severity: 'information' });
  });

  // By hand: 48 × 95 / 0.98 = 4653.06122…; 2400 × 0.98 / 95 = 24.757… pieces; 171000/49 × 3/2 = 5234.69387….
  it.each([
    [['--pieces', '48'], '4653.0612', 48],
    [['--mass', '2.4 kg'], '2400.0000', 24],
    [['--factor', '3/2'], '5234.6939', 54],
  ])('takes %j', (options, mass, pieces) => {
    expect(plan(...options).batch).toEqual({ mass, pieces });
  });

  // By hand: a dome takes 95 / 0.98 × 0.85 × 0.31 = 25.5433… g of citric acid; 1400 g last for 54 of them,
  // and 54 × 95 / 0.98 = 5234.69387….
  it('takes --have as the most whole pieces that the stock allows', () => {
    expect(plan('--have', 'citric acid=1.4 kg').batch).toEqual({ mass: '5234.6939', pieces: 54 });
  });

  it.each([
    [['--pieces', '1.5']],
    [['--pieces', '0']],
    [['--mass', '2.4']],
    [['--factor', '0']],
    [['--have', 'citric acid']],
    [['--pieces', '1', '--factor', '2']],
  ])('refuses %j with status 2', options => {
    const { status, stdout, stderr } = home.run(['plan', cedar, ...options]);
    expect({ status, stdout }).toEqual({ status: 2, stdout: '' });
    expect(stderr).not.toBe('');
  });
});

describe('plan', () => {
  it('prints a table for people', () => {
    const { status, stdout } = home.run(['plan', cedar]);
    expect(status).toBe(0);
    expect(stdout).toMatch(/Sodium bicarbonate +1\s839\.1\sg +1\s820\.8\sg +1\s857\.5\sg +big/);
  });
});
