import { describe, expect, it } from 'vitest';
import { readSettings } from '../../../src/core/sheet/read-settings.ts';
import { readSheet } from '../../../src/core/sheet/read-sheet.ts';
import { sheetOfText, sheetText, told } from '../../helpers/sheet-text.ts';

const withCheck = (text: string): string =>
  sheetText(['tolerance: 1 %', `tolerance: 1 %\nscale check: ${text}`]);

describe('the scale check of a sheet', () => {
  it.each([
    ['24 h', 86_400n, 'deviation'],
    ['{within: 90 min}', 5400n, 'deviation'],
    ['{within: 1 day, else: deviation}', 86_400n, 'deviation'],
    ['{within: 30 min, else: refuse}', 1800n, 'refuse'],
  ])('is read from %s', (text, within, otherwise) => {
    expect(sheetOfText(withCheck(text)).scaleCheck).toEqual({
      within,
      otherwise,
      place: { line: 6, column: 14 },
    });
  });

  it('is absent where the sheet says nothing', () => {
    expect(sheetOfText(sheetText()).scaleCheck).toBeUndefined();
  });

  it.each([
    ['24', 'bad-amount 6:14'],
    ['0 h', 'out-of-range 6:14'],
    ['24 g', 'unknown-unit 6:14'],
    ['{else: refuse}', 'missing-key 6:14'],
    ['{within: 24 h, else: shrug}', 'not-a-choice 6:35'],
    ['{within: 24 h, otherwise: refuse}', 'unknown-key 6:29'],
  ])('is refused as %s', (text, problem) => {
    expect(told(readSheet(withCheck(text)).problems)).toEqual([problem]);
  });
});

describe('the settings of a workshop', () => {
  it('may ask for a check of the scales', () => {
    expect(readSettings('scale check: {within: 24 h, else: refuse}\n')).toEqual({
      ok: true,
      settings: { scaleCheck: { within: 86_400n, otherwise: 'refuse' } },
    });
  });

  it('set nothing where nothing stands in them', () => {
    expect(readSettings('# nothing yet\n')).toEqual({ ok: true, settings: {} });
  });

  it.each([
    'scale chekc: 24 h',
    'tolerance: 1 %',
    '- 24 h',
    'scale check: {',
    'scale check: never',
  ])('are refused as %s', text => {
    expect(readSettings(text).ok).toBe(false);
  });
});
