import { describe, expect, it } from 'vitest';
import { toExact } from '../../../src/core/quantity/decimal.ts';
import { readReading, withoutMarks } from '../../../src/core/quantity/reading.ts';
import { massIn } from '../../../src/core/quantity/unit.ts';
import { mass, number } from '../../helpers/sheet.ts';

// Invented scales.
const big = { unit: 'g', readability: mass('0.1'), capacity: mass('10000') };
const fine = { unit: 'g', readability: mass('0.01'), capacity: mass('200') };
const even = { unit: 'g', readability: mass('0.2'), capacity: mass('10000') };
const whole = { unit: 'g', readability: mass('1'), capacity: mass('5000') };
const kilo = { unit: 'kg', readability: mass('1'), capacity: mass('30000') };
const postal = {
  unit: 'oz',
  readability: massIn(number('0.05'), 'oz'),
  capacity: massIn(number('11'), 'lb'),
};

const read = (typed: string, scale = big) => {
  const reading = readReading(typed, scale);
  return reading.ok ? `${toExact(reading.mass)} ${reading.unit}` : reading.code;
};

describe('a reading that is plain', () => {
  it.each([
    ['812.4', '812.4 g'],
    ['812,4', '812.4 g'],
    ['  812.4\t', '812.4 g'],
    ['812', '812 g'],
    ['0', '0 g'],
    ['000812.4', '812.4 g'],
    ['812.4 g', '812.4 g'],
    ['812.4g', '812.4 g'],
    ['0.8124kg', '812.4 kg'],
    ['0,8124 kg', '812.4 kg'],
    ['+ 812.4 g', '812.4 g'],
    ['-3.2', '-3.2 g'],
    ['− 3.2 g', '-3.2 g'],
    ['0,812 kg', '812 kg'],
    ['1234,567 kg', 'over-capacity'],
  ])('reads %j as %s', (typed, expected) => {
    expect(read(typed)).toBe(expected);
  });

  it('keeps what was typed, without blanks around it', () => {
    expect(readReading('  + 812.40 g ', fine)).toMatchObject({ ok: false, code: 'over-capacity' });
    expect(readReading('  + 12.40 g ', fine)).toMatchObject({ ok: true, typed: '+ 12.40 g' });
  });

  it('takes the unit of the scale where none is typed', () => {
    expect(read('1.234', kilo)).toBe('1234 kg');
    // 28.65 oz · 28.349523125 g (NIST HB 44 App. C)
    expect(read('28.65', postal)).toBe('812.21383753125 oz');
  });

  it('reads pounds with ounces as one mass', () => {
    // 28.6 oz · 28.349523125 g
    expect(read('1 lb 12.6 oz', postal)).toBe('810.796361375 lb oz');
    expect(read('1lb 12,6oz', postal)).toBe('810.796361375 lb oz');
    expect(read('- 1 lbs 12.6 oz', postal)).toBe('-810.796361375 lb oz');
    expect(read('1 lb 16 oz', postal)).toBe('bad-reading');
    expect(read('1.5 lb 2 oz', postal)).toBe('bad-reading');
  });

  it('takes a number between two divisions, since a display may be set finer', () => {
    expect(read('812.3', even)).toBe('812.3 g');
  });
});

// Common practice of scales with a serial or keyboard output, no source.
describe('a reading as a device types it', () => {
  it.each([
    ['ST,GS,+ 812.4 g', '812.4 g'],
    ['ST,GS,+  812.4  g\r\n', '812.4 g'],
    ['ST,NT,+000812.4 g\r', '812.4 g'],
    ['ST, NT, - 3.2 g', '-3.2 g'],
    ['ST,+812.4g', '812.4 g'],
    ['ST 812.4', '812.4 g'],
    ['S S     812.4 g', '812.4 g'],
    ['S 812.4 g', '812.4 g'],
    ['N 812.4 g', '812.4 g'],
    ['G   + 812,4 g', '812.4 g'],
    ['ST,GS,+ 0.8124kg', '812.4 kg'],
    ['S S 28.6512 oz', 'too-many-decimals'],
    ['ST,GS,+ 812.40 g', 'too-many-decimals'],
    ['ST,GS,+ 12,345 g', 'ambiguous-reading'],
    ['ST,GS,+ 1,234.5 g', 'bad-reading'],
    ['ST,GS,+ 10000.1 g', 'over-capacity'],
    ['ST,GS,+ 812.4 mL', 'wrong-unit'],
    ['st,gs,+ 812.4 g', 'bad-reading'],
    ['XY,GS,+ 812.4 g', 'bad-reading'],
    ['ST,GS,', 'bad-reading'],
    ['ST,GS,ST,GS,812.4', 'bad-reading'],
    ['N812.4', 'bad-reading'],
    ['812.4 N', 'wrong-unit'],
  ])('reads %j as %s', (typed, expected) => {
    expect(read(typed)).toBe(expected);
  });

  it('reads pounds and ounces behind the letters', () => {
    expect(read('S S 1 lb 12.6 oz', postal)).toBe('810.796361375 lb oz');
    // 28.65 oz · 28.349523125 g
    expect(read('ST,GS,+ 28.65 oz\r\n', postal)).toBe('812.21383753125 oz');
  });

  it('keeps the letters in what was typed', () => {
    expect(readReading(' ST,GS,+ 12.40 g\r\n', fine)).toMatchObject({ typed: 'ST,GS,+ 12.40 g' });
    expect(withoutMarks(' ST,GS,+ 12.40 g\r\n')).toBe('+ 12.40 g');
    expect(withoutMarks('12.40 g')).toBe('12.40 g');
  });

  it.each(['US,GS,+ 812.4 g', 'US,NT,+ 812.4 g', 'US 812.4', 'S D   812.4 g', 'D 812.4 g'])(
    'refuses %j until the display is steady',
    typed => {
      expect(readReading(typed, big)).toMatchObject({
        ok: false,
        message: 'The scale marked that reading as not steady yet.',
        instead: 'Wait until the display is steady, then send it again.',
      });
    },
  );
});

describe('a reading that is refused', () => {
  it.each([
    ['', 'bad-reading'],
    ['   ', 'bad-reading'],
    ['1,234', 'ambiguous-reading'],
    ['+ 12,345 g', 'ambiguous-reading'],
    ['1,234 kg', 'ambiguous-reading'],
    ['1,234.5', 'bad-reading'],
    ['1.234,5', 'bad-reading'],
    ['1.2.3', 'bad-reading'],
    ['1,234,567', 'bad-reading'],
    ['1e3', 'bad-reading'],
    ['1.5E-2', 'bad-reading'],
    ['.5', 'bad-reading'],
    ['5.', 'bad-reading'],
    ['.', 'bad-reading'],
    ['1 234.5', 'bad-reading'],
    ['１２.5', 'bad-reading'],
    ['٣', 'bad-reading'],
    ['0x10', 'bad-reading'],
    ['NaN', 'bad-reading'],
    ['--5', 'bad-reading'],
    ['812.4 g 3', 'bad-reading'],
    ['12\u001b[2J', 'bad-reading'],
    ['9'.repeat(41), 'bad-reading'],
    ['812.45', 'too-many-decimals'],
    ['0.81245 kg', 'too-many-decimals'],
    ['812.4 mL', 'wrong-unit'],
    ['812.4 G', 'wrong-unit'],
    ['31 %', 'wrong-unit'],
    ['10000.1', 'over-capacity'],
    ['-10000.1', 'over-capacity'],
    ['10.0001 kg', 'over-capacity'],
  ])('refuses %j: %s', (typed, code) => {
    expect(read(typed)).toBe(code);
  });

  it('takes the capacity itself', () => {
    expect(read('10000.0')).toBe('10000 g');
  });

  it('says how many decimals the scale shows', () => {
    expect(readReading('5.5', whole)).toMatchObject({
      message: 'This scale shows no decimals in g, and 1 were typed.',
    });
    expect(readReading('5.123', fine)).toMatchObject({
      message: 'This scale shows 2 decimals in g, and 3 were typed.',
    });
  });

  it('offers both meanings of an ambiguous number', () => {
    expect(readReading('1,234', big)).toMatchObject({
      message: '1,234 can mean 1234 or 1.234.',
      instead: 'Type 1234 or 1.234.',
    });
  });

  it('gives each kind of fault a sentence of its own', () => {
    const faults = ['', '9'.repeat(41), '１', '1e3', '1 234', 'x', '1.2.3', '5.', '1 lb 16 oz'];
    const sentences = faults.map(typed => {
      const reading = readReading(typed, big);
      return reading.ok ? '' : reading.message;
    });
    expect(new Set(sentences).size).toBe(faults.length);
  });

  it('repeats nothing of what was typed but digits and letters', () => {
    const reading = readReading('12 \u001b]0;x\u0007', big);
    expect(JSON.stringify(reading)).not.toMatch(/u001b|u0007/);
  });
});
