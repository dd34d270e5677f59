import { describe, expect, it } from 'vitest';
import { uncheckedScales } from '../../../src/core/plan/unchecked-scales.ts';
import type { ScaleCheck } from '../../../src/core/sheet/sheet.ts';
import { readInstant } from '../../../src/core/time/instant.ts';
import { asWritten, big, fine, oneBowl, plan } from '../../helpers/plan.ts';

const day: ScaleCheck = { within: 86_400n, otherwise: 'deviation' };
const at = readInstant('2027-03-04T09:00:00.000+01:00') ?? { epochMs: 0, offset: 0 };

type LastCheck = NonNullable<typeof big.lastCheck>;

const found = (lastCheck: LastCheck | undefined, usual?: ScaleCheck, own?: ScaleCheck) => {
  const sheet = oneBowl(['500'], own && { scaleCheck: { ...own, place: { line: 7, column: 1 } } });
  const scales = [{ ...big, ...(lastCheck && { lastCheck }) }, fine];
  const { plan: planned } = plan(sheet, asWritten, scales);
  return uncheckedScales(sheet, planned, usual, at).map(
    ({ code, severity, message }) => `${severity} ${code}: ${message}`,
  );
};

const within = (text: string): LastCheck => ({ at: text, verdict: 'within' });

describe('the check of the scales before a batch', () => {
  it('is not missed where nobody asks for it', () => {
    expect(found(undefined)).toEqual([]);
  });

  it('is missed on the scale in use, and on no other', () => {
    expect(found(undefined, day)).toEqual([
      'warning scale-unchecked: The scale “big” was never checked. The workshop asks for a check within 24 h before a batch.',
    ]);
  });

  it('lasts up to its very end', () => {
    expect(found(within('2027-03-03T09:00:00.000+01:00'), day)).toEqual([]);
    expect(found(within('2027-03-03T08:59:58.000+01:00'), day)).toEqual([
      expect.stringContaining('was last checked 24 h ago'),
    ]);
    expect(found(within('2027-03-04T10:00:00.000+01:00'), day)).toEqual([]);
  });

  it('is refused without it where the sheet, before the workshop, says so', () => {
    expect(found(undefined, day, { within: 3600n, otherwise: 'refuse' })).toEqual([
      'error scale-unchecked: The scale “big” was never checked. The sheet asks for a check within 1 h before a batch.',
    ]);
  });

  it('counts for nothing when the scale was beyond its limits, asked for or not', () => {
    const beyond: LastCheck = { at: '2027-03-04T08:00:00.000+01:00', verdict: 'beyond' };
    expect(found(beyond)).toEqual([
      'warning scale-unchecked: The scale “big” was beyond its limits when it was last checked.',
    ]);
    expect(found({ ...beyond, verdict: 'doubtful' }, day)).toEqual([]);
  });
});
