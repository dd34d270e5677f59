/** The example of sheet.md as a file, against the same sheet built by hand. */
import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { planBatch } from '../../../src/core/plan/plan-batch.ts';
import { readSheet } from '../../../src/core/sheet/read-sheet.ts';
import { asWritten } from '../../helpers/plan.ts';
import { cedarDomes } from '../../helpers/sheet.ts';

const text = readFileSync(
  new URL('../../fixtures/sheets/cedar-domes.yaml', import.meta.url),
  'utf8',
);

describe('the example of sheet.md, read from its text', () => {
  it('plans as the one that is built by hand', () => {
    const reading = readSheet(text);
    if (!reading.ok) throw new Error(reading.problems.map(each => each.message).join('\n'));
    const read = planBatch(reading.sheet, asWritten, []);
    const built = planBatch(cedarDomes(), asWritten, []);
    expect(read.plan.additions).toEqual(built.plan.additions);
    expect(read.plan.size).toEqual(built.plan.size);
    expect(read.plan.phases).toEqual(built.plan.phases);
    expect(read.plan.steps.map(each => each.most)).toEqual(built.plan.steps.map(each => each.most));
    expect(read.problems.map(each => each.code)).toEqual(['scales-assumed']);
  });
});
