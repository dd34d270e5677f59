import { describe, expect, it } from 'vitest';
import { newHome } from '../helpers/program.ts';

const sheet = 'tests/fixtures/sheets/cedar-domes.yaml';
const readings = '100.0 100.1 100.0 99.9 100.0 100.0 100.1 100.0 100.0 100.0';

/** A workshop with one scale of class III, e 1 g. */
const withBig = () => {
  const home = newHome();
  const run = (...args: readonly string[]) => home.run(['scales', ...args]);
  expect(
    run('add', 'big 10 kg x 0.1 g', '--interval', '1 g', '--class', 'III', '--by', 'Ana'),
  ).toMatchObject({ status: 0, stdout: 'big is entered.\n', stderr: '' });
  return { home, run };
};

interface Listed {
  readonly scales: readonly Readonly<Record<string, unknown>>[];
}

const listed = (stdout: string) => (JSON.parse(stdout) as Listed).scales;

describe('scales', () => {
  it('lists what is in use, with least loads and last checks', () => {
    const { run } = withBig();
    const { status, stdout } = run();
    expect(status).toBe(0);
    // R 76-1 Table 3: class III has Min = 20 e.
    expect(stdout).toMatch(/big +10\s000\.0\sg +0\.1\sg +III +1\.0\sg +20\.0\sg, by class +never/);
    expect(listed(run('list', '--json').stdout)).toEqual([
      {
        name: 'big',
        capacity: '10000',
        readability: '0.1',
        unit: 'g',
        interval: '1',
        class: 'III',
        leastLoad: { mass: '20', by: 'class' },
        repeatability: null,
        lastCheck: null,
      },
    ]);
  });

  it('judges test masses and measures repeatability', () => {
    const { run } = withBig();
    const masses = ['--mass', '500 g F2=499.9', '--mass', '5 kg F2 + 2 kg F2=7002'];
    const { status, stdout } = run('check', 'big', ...masses, '--repeat', readings, '--by', 'Ana');
    expect(status).toBe(0);
    // In service: ±1 g up to 500 e, ±3 g beyond 2000 e.
    expect(stdout).toMatch(/500\sg: off by −0\.1\sg, 1\.0\sg allowed either way: within/);
    expect(stdout).toMatch(/7\s000\sg: off by \+2\.0\sg, 3\.0\sg allowed either way: within/);
    // s of the ten: mean 100.01, sum of squares 0.029; √(0.029 / 9) = 0.056 764…; 2000 s.
    expect(stdout).toMatch(/Repeatability: 0\.0568\sg from 10 readings; .* 113\.5\sg\./);
    expect(stdout).toContain('big: within its limits.');
    expect(listed(run('list', '--json').stdout)[0]).toMatchObject({
      repeatability: '0.056765',
      lastCheck: { verdict: 'within' },
    });
  });

  it('answers a scale beyond its limits with status 1, and plans with a warning', () => {
    const { home, run } = withBig();
    expect(run('check', 'big', '--mass', '500 g F2=498.9', '--by', 'Ana')).toMatchObject({
      status: 1,
      stdout: expect.stringContaining('beyond its limits'),
    });
    const { status, stdout } = home.run(['plan', sheet]);
    expect([status, stdout]).toEqual([0, expect.stringContaining('warning scale-unchecked')]);
  });

  it('plans no more with a scale that is retired', () => {
    const { home, run } = withBig();
    expect(home.run(['plan', sheet, '--json']).stdout).not.toContain('scales-assumed');
    expect(run('retire', 'big', '--reason', 'dropped', '--by', 'Ana').status).toBe(0);
    expect(home.run(['plan', sheet, '--json']).stdout).toContain('scales-assumed');
    expect(run().stdout).toContain('No scale is entered yet.');
  });

  it.each([
    [2, ['add', 'big']],
    [2, ['add', 'odd 1 kg x 1 g', '--class', 'V']],
    [2, ['add', 'odd 1 kg x 1 g', '--interval', '1']],
    [2, ['add', 'odd 1 kg x 1 g', '--least', '2 kg']],
    [1, ['add', 'odd 1 kg x 1 g', '--class', 'I']],
    [3, ['check', 'other', '--mass', '500 g F2=500']],
    [2, ['check', 'big']],
    [2, ['check', 'big', '--mass', '500 g=500']],
    [2, ['check', 'big', '--mass', '500 g F2=500.05']],
    [2, ['check', 'big', '--repeat', '1 2 3']],
    [1, ['check', 'big', '--mass', '400 g F2=400']],
    [3, ['retire', 'other', '--reason', 'lost']],
    [2, ['retire', 'big']],
    [2, ['sell', 'big']],
  ])('answers with status %i: %j', (status, args) => {
    const { run } = withBig();
    const before = run('list', '--json').stdout;
    const by = args[0] === 'sell' ? [] : ['--by', 'Ana'];
    const answered = run(...args, ...by);
    expect([answered.status, answered.stdout]).toEqual([status, '']);
    expect(answered.stderr).not.toBe('');
    expect(run('list', '--json').stdout).toBe(before);
  });

  it('asks who enters it', () => {
    expect(newHome().run(['scales', 'add', 'big 10 kg x 0.1 g'])).toMatchObject({
      status: 2,
      stderr: expect.stringContaining('--by'),
    });
  });
});
