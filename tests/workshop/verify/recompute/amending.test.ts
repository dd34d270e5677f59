import { expect, test } from 'vitest';
import { buildRecord } from '../../../../src/core/result/build-record.ts';
import { encodeEvent } from '../../../../src/core/run/event-codec.ts';
import type { Intent } from '../../../../src/core/run/intent.ts';
import { recompute } from '../../../../src/workshop/verify/recompute/recompute.ts';
import { lot, net } from '../../../helpers/bench-sheet.ts';
import { eventsOf, given, type Story } from '../../../helpers/given.ts';
import { chain } from '../../../helpers/record.ts';
import { sheetText } from '../../../helpers/sheet-text.ts';
import { amend, read, weighed } from '../../../helpers/weigh.ts';

// Invented: soda and acid into a bowl that is tipped into a pan, whose contents are pressed.
const sheet = sheetText([
  '      - hold: 10 min\n        for: Rest.\n',
  `      - tip: bowl
        into: pan
  - phase: Second
    vessel: {name: pan, tare: 200 g}
    steps:
      - do: Press.
        empties: pan
`,
]);
const poured: readonly Intent[] = [...weighed, net(1, '600'), lot(2, 'A-1'), net(2, '400')];
const tipped: readonly Intent[] = [
  { type: 'weigh-vessel', vessel: 'pan' },
  { type: 'tick', step: 3 },
];
const pressed: Intent = { type: 'tick', step: 4 };
const close: Intent = { type: 'close' };
const accept: Intent = { type: 'accept', step: 1, reason: 'pressed already' };

const recordOf = (story: Story) => {
  const { run } = story;
  if (run.phase !== 'closed') throw new Error('not closed');
  const { lines } = chain(eventsOf(run).map(each => ({ ...encodeEvent(each) })));
  return JSON.parse(JSON.stringify(buildRecord(run, lines)));
};

const nothing = { kind: 'worked-out', differences: [] };
const good = { sheet: nothing, plan: nothing, verdicts: nothing, result: nothing };

test.each<readonly [string, readonly Intent[]]>([
  ['in its window still', [...poured, amend(4, '604'), ...tipped, pressed]],
  ['under, and topped up', [...poured, amend(4, '500'), net(1, '98'), ...tipped, pressed]],
  ['in another vessel since', [...poured, ...tipped, amend(4, '604'), pressed]],
  ['under when it was emptied out', [...poured, ...tipped, pressed, amend(4, '500'), accept]],
  [
    'over when it was emptied out',
    [...poured, ...tipped, pressed, amend(6, '440'), { ...accept, step: 2 }],
  ],
  [
    'a container before',
    [
      ...weighed,
      read(1, 'difference', 'before', '1600'),
      read(1, 'difference', 'after', '1000'),
      lot(2, 'A-1'),
      net(2, '400'),
      amend(4, '1604'),
      ...tipped,
      pressed,
    ],
  ],
])('a record with a reading that was put right comes out the same: %s', (_what, intents) => {
  expect(recompute(recordOf(given(sheet, ...intents, close)))).toEqual(good);
});

test.each<readonly [string, (event: Record<string, unknown>) => void]>([
  [
    'another number than it came to',
    event => {
      event['judged'] = { net: '604', total: '603', verdict: 'in' };
    },
  ],
  [
    'a number that another had taken the place of',
    event => {
      event['amends'] = 4;
    },
  ],
])('an amendment that says %s is found', (_what, forge) => {
  const story = given(
    sheet,
    ...weighed,
    net(1, '350'),
    net(1, '600'),
    lot(2, 'A-1'),
    net(2, '400'),
    amend(5, '604'),
    ...tipped,
    pressed,
    close,
  );
  const record = recordOf(story);
  expect(recompute(record)).toEqual(good);
  forge(record.events.find((event: { type: string }) => event.type === 'amended'));
  expect(recompute(record)).not.toEqual(good);
});
