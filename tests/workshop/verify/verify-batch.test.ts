import { expect, test } from 'vitest';
import { verifyBatch } from '../../../src/workshop/verify/verify-batch.ts';
import { writeWorkshop } from '../../helpers/record.ts';

test('a signed batch written by hand from the documented formats is good', () => {
  const report = verifyBatch(writeWorkshop().folder);
  expect(report.claims.filter(each => each.state !== 'holds')).toEqual([]);
  expect(report).toMatchObject({ batch: 'PRF-2027-001', verdict: 'good', status: 0 });
});
