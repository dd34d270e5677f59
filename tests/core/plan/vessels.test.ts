import { describe, expect, it } from 'vitest';
import { asWritten, big, codes, plan } from '../../helpers/plan.ts';
import { adding, base, mass, percent, phaseOf, sheetOf } from '../../helpers/sheet.ts';

const places = (tare: string, amounts: readonly string[], holds?: string) => {
  const vessel = {
    name: 'bowl',
    tare: mass(tare),
    ...(holds === undefined ? {} : { holds: mass(holds) }),
  };
  const steps = amounts.map((amount, at) => adding('abcdef'.charAt(at), `${amount}g`));
  const sheet = sheetOf([phaseOf('Bowl', steps, { vessel })], { basis: 'absolute' });
  const { plan: planned, problems } = plan(sheet, asWritten, [big]);
  return [...planned.additions.map(each => each.place), ...codes(problems)].join(' ');
};

const adjust = (most: string) => ({
  ...base(),
  kind: 'adjust' as const,
  material: 'water',
  most: { typed: most, mass: mass(most) },
  until: 'it holds',
});

describe('the vessel of an addition', () => {
  it('stands on the scale while both and what is in it already may', () => {
    expect(places('990', ['4000', '4960'])).toBe('vessel vessel');
    expect(places('990.5', ['4000', '4960'])).toBe('vessel cup');
  });

  it('overflows beyond what it holds, and not at it', () => {
    expect(places('0', ['400', '600'], '1000')).toBe('vessel vessel');
    expect(places('0', ['400', '600.1'], '1000')).toBe('vessel vessel vessel-overflows');
  });

  it('counts adjust steps at their most, tips, and what an emptied vessel lost', () => {
    const bowl = { name: 'bowl', holds: mass('100') };
    const pan = { name: 'pan', holds: mass('150') };
    const found = (steps: Parameters<typeof phaseOf>[1]) =>
      codes(
        plan(
          sheetOf(
            [
              phaseOf('Bowl', steps, { vessel: bowl }),
              phaseOf('Pan', [adding('b', '60g')], { vessel: pan }),
            ],
            {
              basis: 'absolute',
            },
          ),
        ).problems,
      );
    const tip = { ...base(), kind: 'tip' as const, from: 'bowl', into: 'pan' };
    const press = { ...base(), kind: 'do' as const, text: 'Press.', empties: 'bowl' };
    expect(found([adding('a', '90g'), adjust('10')])).toEqual([]);
    expect(found([adding('a', '90g'), adjust('10.1')])).toEqual(['vessel-overflows']);
    expect(found([adding('a', '90g'), tip])).toEqual([]);
    expect(found([adding('a', '90.1g'), tip])).toEqual(['vessel-overflows']);
    expect(found([adding('a', '90g'), tip, adjust('90')])).toEqual([]);
    expect(found([adding('a', '90g'), press, adjust('90')])).toEqual([]);
  });

  it('overflows once, at the step that overfills it, with the most that it would hold', () => {
    const vessel = { name: 'bowl', holds: mass('1000') };
    const steps = [adding('a', '900g'), adding('b', '200g'), adding('c', '300g')];
    const { problems } = plan(sheetOf([phaseOf('Bowl', steps, { vessel })], { basis: 'absolute' }));
    expect(problems).toHaveLength(1);
    expect(problems[0]?.line).toBe(steps[1]?.place.line);
    expect(problems[0]?.message).toContain('400.0 g in it and holds');
  });

  it('keeps the tare that the first phase gave it', () => {
    const sheet = sheetOf([
      phaseOf('A', [adding('a', '50%')], {
        share: percent('50'),
        vessel: { name: 'bowl', tare: mass('9900') },
      }),
      phaseOf('B', [adding('b', 'rest')], {
        share: percent('50'),
        vessel: { name: 'bowl', tare: mass('5') },
      }),
    ]);
    const { plan: planned } = plan(sheet, asWritten, [big]);
    expect(planned.phases[1]?.vessel.tare).toEqual(mass('9900'));
    expect(planned.additions[1]?.place).toBe('cup');
  });
});
