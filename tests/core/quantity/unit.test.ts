import { describe, expect, it } from 'vitest';
import { massIn, massUnits, unitNamed, volumeUnits } from '../../../src/core/quantity/unit.ts';
import { number } from '../../helpers/sheet.ts';

describe('unitNamed', () => {
  it.each([
    ['cup', 'cup'],
    ['cups', 'cup'],
    ['fl oz', 'fl oz'],
    ['fl   oz', 'fl oz'],
    ['L', 'L'],
  ])('takes %j for %s', (name, expected) => {
    expect(unitNamed(name, volumeUnits)).toBe(expected);
  });

  it.each(['Cup', 'ML', 'l', 'toString', '', 's', 'cupss'])('knows no volume %j', name => {
    expect(unitNamed(name, volumeUnits)).toBeUndefined();
  });

  it('takes oz for a mass', () => {
    expect(unitNamed('oz', massUnits)).toBe('oz');
    expect(unitNamed('oz', volumeUnits)).toBeUndefined();
  });
});

describe('massIn', () => {
  it('refuses a unit that is no mass', () => {
    expect(() => massIn(number('1'), 'cup')).toThrow(RangeError);
  });
});
