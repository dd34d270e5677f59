import { describe, expect, it } from 'vitest';
import { toExact } from '../../../src/core/quantity/decimal.ts';
import { noMass } from '../../../src/core/quantity/quantity.ts';
import { buildSituation, type Progress } from '../../../src/core/remedy/build-situation.ts';
import type { Sheet } from '../../../src/core/sheet/sheet.ts';
import { asWritten, big, plan } from '../../helpers/plan.ts';
import { adding, base, cedarDomes, mass, phaseOf, sheetOf } from '../../helpers/sheet.ts';

const nothingYet: Progress = {
  lines: new Map(),
  adjusts: new Map(),
  done: new Set(),
  closedPhases: new Set(),
  stock: new Map(),
};

const built = (sheet: Sheet, progress: Partial<Progress> = {}) =>
  buildSituation(sheet, plan(sheet).plan, { ...nothingYet, ...progress });

const poured = (net: string) => ({
  net: mass(net),
  state: 'poured' as const,
  canTakeBack: false,
});

describe('buildSituation', () => {
  it('takes lines, adjust steps, pieces and limits from the plan', () => {
    const { lines, adjusts, pieces, perPiece, limits } = built(cedarDomes());
    expect(lines.map(each => each.material)).toEqual([
      'bicarbonate',
      'citric acid',
      'cedar blend',
      'cornflour',
      'cocoa butter',
      'stearic acid',
    ]);
    expect(adjusts).toMatchObject([{ material: 'water', most: mass('11.976'), isDone: false }]);
    expect([pieces, toExact(perPiece)]).toEqual([36, '4750/49']);
    expect(limits).toHaveLength(2);
  });

  it('closes the lines of a vessel that a done step emptied, and finishes its adjust step', () => {
    const press = plan(cedarDomes()).plan.steps.find(
      ({ step }) => step.kind === 'do' && step.empties !== undefined,
    );
    const { lines, adjusts, vessels } = built(cedarDomes(), { done: new Set([press?.n ?? 0]) });
    expect(lines.map(each => each.isClosed)).toEqual([true, true, true, true, false, false]);
    expect(adjusts[0]?.isDone).toBe(true);
    expect([...vessels.values()].map(each => each.name)).toEqual(['jug']);
  });

  it('closes a phase that is named, whatever its steps say', () => {
    const { lines } = built(cedarDomes(), { closedPhases: new Set(['Topping']) });
    expect(lines.map(each => each.isClosed)).toEqual([false, false, false, false, true, true]);
  });

  const bowl = { vessel: { name: 'bowl', holds: mass('3000') } };
  const emptyBowl = { ...base(), kind: 'do' as const, text: 'Pour out.', empties: 'bowl' };
  const twice = sheetOf(
    [
      phaseOf('First', [adding('salt', '500g'), emptyBowl], bowl),
      phaseOf('Second', [adding('clay', '500g')], bowl),
    ],
    { basis: 'absolute' },
  );

  it('keeps what is in a vessel apart before and after it is emptied', () => {
    const { lines, vessels } = built(twice, { lines: new Map([[1, poured('500')]]) });
    expect([...vessels.values()].map(each => toExact(each.mass))).toEqual(['500', '0']);
    expect(lines[0]?.vessel).not.toBe(lines[1]?.vessel);
    const after = built(twice, {
      lines: new Map([[1, poured('500')]]),
      done: new Set([2]),
    });
    expect(after.lines.map(each => each.isClosed)).toEqual([true, false]);
    expect([...after.vessels.values()].map(each => toExact(each.mass))).toEqual(['0']);
  });

  const tipped = sheetOf(
    [
      phaseOf('Oils', [adding('oil', '400g')], { vessel: { name: 'jug' } }),
      phaseOf(
        'Pan',
        [adding('wax', '600g'), { ...base(), kind: 'tip', from: 'jug', into: 'pan' }],
        { vessel: { name: 'pan' } },
      ),
    ],
    { basis: 'absolute' },
  );
  const both = new Map([
    [1, poured('400')],
    [2, poured('600')],
  ]);

  it('counts what is to be tipped where it stands, and names the vessel that it goes into', () => {
    const { lines, vessels } = built(tipped, { lines: both });
    const [jug, pan] = lines.map(each => vessels.get(each.vessel));
    expect([jug?.name, pan?.name, jug?.into]).toEqual(['jug', 'pan', lines[1]?.vessel]);
    expect([jug?.mass, pan?.mass].map(each => toExact(each ?? noMass))).toEqual(['400', '600']);
  });

  it('tops up what was tipped in the vessel where it is now', () => {
    const { lines, vessels } = built(tipped, { lines: both, done: new Set([3]) });
    expect(lines.map(each => each.isClosed)).toEqual([false, false]);
    expect(lines[0]?.vessel).toBe(lines[1]?.vessel);
    expect([...vessels.values()].map(each => [each.name, toExact(each.mass)])).toEqual([
      ['pan', '1000'],
    ]);
  });

  it('takes the least load that a scale is known to have', () => {
    const known = { ...big, leastLoad: mass('5') };
    const planned = plan(twice, asWritten, [known]);
    const { lines } = buildSituation(twice, planned.plan, nothingYet);
    expect(lines[0]?.scale.leastLoad).toEqual(mass('5'));
  });
});
