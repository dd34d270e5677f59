import { readFileSync } from 'node:fs';
import { expect, test } from 'vitest';
import { buildResult } from '../../../src/core/result/build-result.ts';
import { closedRun } from '../../helpers/given.ts';
import { newWorld, talk } from '../../helpers/memory-bench.ts';

const sheet = readFileSync(
  new URL('../../fixtures/sheets/cedar-domes.yaml', import.meta.url),
  'utf8',
);

// What a maker types at each question. Invented readings; targets by hand from the sheet: 36 · 95 g
// / 0.98 = 3489.796 g, of it 85 % base (2966.327 g) and 15 % topping (523.469 g).
const base: readonly (readonly [kind: string, line: string])[] = [
  ['begin', ''],
  ['tick', 'all'],
  ['vessel', ''],
  ['lot', 'SB-1'],
  ['reading', '1839.1'],
  ['lot', 'CA-77'],
  ['reading', '919.6'],
  ['lot', 'CED-5'],
  ['reading', '71.19'],
  ['witness', 'alone nobody else is here'],
  ['lot', 'ZM-3'],
  ['reading', '100'],
  ['reading', '136.5'],
  ['tick', ''],
  ['measure', '45 %'],
  ['adjust', '1 mL'],
  ['adjust', '1 pump'],
  ['adjust', 'done'],
  ['tick', ''],
  ['hold', ''],
];
const topping: readonly (readonly [kind: string, line: string])[] = [
  ['hold-running', 'turn Topping'],
  ['vessel', '241.2'],
  ['lot', 'CB-9'],
  ['reading', 'gross'],
  ['reading', '607.6'],
  ['lot', 'SA-2'],
  ['reading', '157.04'],
];
const finish: readonly (readonly [kind: string, line: string])[] = [
  ['tally', '34'],
  ['tally', '1 cracked'],
  ['tally', '0'],
  ['tally', '1'],
  ['tally', 'none'],
  ['tally', '12.5'],
  ['tally', '94.8'],
  ['tally', '95.1'],
  ['tally', '95.0'],
  ['tally', '95.3'],
  ['tally', '94.9'],
  ['close', 'close'],
  ['new-passphrase', 'long enough'],
  ['repeat-passphrase', 'long enough'],
  ['finished', ''],
];

test('the sheet of the design is walked from its beginning to a signature', async () => {
  const one = talk({ sheet, person: 'Ines' });
  for (const [kind, line] of [...base, ...topping]) {
    expect([one.question().kind, line, one.answer()]).toEqual([kind, line, one.answer()]);
    await one.hearAll(line);
  }
  // Five minutes of the hold's ten to thirty are gone: it is not over yet.
  await one.hearAll('');
  expect(one.question().kind).toBe('hold-running');
  expect(one.answer()).toContain('of at least 10 min');
  one.world.ms += 10 * 60 * 1000;
  await one.hearAll('');
  expect(one.question().kind).toBe('hold');
  await one.hearAll('');
  one.world.ms += 20 * 3600 * 1000;
  await one.hearAll('');
  for (const [kind, line] of finish) {
    expect([one.question().kind, line, one.answer()]).toEqual([kind, line, one.answer()]);
    await one.hearAll(line);
  }
  expect(one.ending()).toMatchObject({ status: 0 });
  expect(one.world.signed).toEqual(['INV-2027-001 made by Ines']);
  const result = buildResult(closedRun({ run: one.run() }));
  expect(result.additions.map(each => [each.net, each.verdict])).toEqual([
    ['1839.1', 'in'],
    ['919.6', 'in'],
    ['71.19', 'in'],
    ['136.5', 'in'],
    ['366.4', 'in'],
    ['157.04', 'in'],
  ]);
  expect(result.deviations.map(each => each.what)).toEqual(['unwitnessed']);
});

test('leaving after each line and resuming gives the same events, times aside', async () => {
  const lines = [...base, ...topping].map(([, line]) => line);
  const straight = talk({ sheet, person: 'Ines' });
  await straight.hearAll(...lines);
  const world = newWorld();
  await talk({ sheet, person: 'Ines' }, world).hearAll(lines[0] ?? '');
  for (const line of lines.slice(1)) {
    // A way of reading that was only chosen is chosen again: it is no event.
    const again = talk({}, world);
    await again.hearAll(...(line === '607.6' ? ['gross'] : []), line);
    again.leave();
  }
  const events = (run: typeof world.run) =>
    run.phase === 'unbegun' ? [] : run.events.map(({ seq, by, event }) => ({ seq, by, event }));
  expect(events(world.run)).toEqual(events(straight.world.run));
});
