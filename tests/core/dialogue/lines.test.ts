import { describe, expect, test } from 'vitest';
import { eventsOf } from '../../helpers/given.ts';
import { newWorld, type Talked, talk } from '../../helpers/memory-bench.ts';
import { sheetText } from '../../helpers/sheet-text.ts';

// Soda 600 g and acid 400 g into a bowl with a tare of 300 g, then a hold of ten minutes.
const sheet = sheetText(
  ['{name: bowl}', '{name: bowl, tare: 300 g}'],
  [
    '  acid: {name: Acid}\n',
    '  acid: {name: Acid}\nlimits:\n  - {of: soda, in: batch, most: 62 %}\n',
  ],
);

const begun = async (...lines: readonly string[]): Promise<Talked> => {
  const one = talk({ sheet, person: 'Ana' });
  await one.hearAll('', ...lines);
  return one;
};
/** At the first reading. */
const weighing = (...lines: readonly string[]): Promise<Talked> => begun('', 'S-2291', ...lines);

const lastEvent = (one: Talked) => eventsOf(one.run()).at(-1)?.event;
const countOf = (one: Talked): number => eventsOf(one.run()).length;

/** What was asked and what is recorded stay as they are. */
const expectNothing = async (one: Talked, ...lines: readonly string[]): Promise<void> => {
  const before = [countOf(one), one.question().kind];
  await one.hearAll(...lines);
  expect([countOf(one), one.question().kind]).toEqual(before);
};

describe('before the batch', () => {
  test('a person without a name is asked for it', async () => {
    const one = talk({ sheet });
    expect(one.question().kind).toBe('who');
    await one.hearAll('7');
    expect(one.question().kind).toBe('who');
    await one.hearAll(' Ines  Okafor ', '');
    expect(one.run()).toMatchObject({ begunBy: 'Ines Okafor' });
  });

  test('scales are asked for where none was entered', async () => {
    const one = talk({ sheet, person: 'Ana' }, newWorld({ scales: [] }));
    expect(one.question().kind).toBe('scales');
    await one.hearAll('big');
    expect(one.answer()).toContain('big 10 kg x 0.1 g');
    await one.hearAll('bench 5 kg x 0.2 g');
    expect(one.world.scales.map(scale => scale.name)).toEqual(['bench']);
    await one.hearAll('');
    expect(one.question().kind).toBe('begin');
  });

  test('practice asks for no scales', () => {
    const one = talk({ sheet, person: 'Ana', practice: true }, newWorld({ scales: [] }));
    expect(one.question().kind).toBe('begin');
  });

  test('nothing but Enter begins it', async () => {
    const one = talk({ sheet, person: 'Ana' });
    await one.hearAll('yes');
    expect(one.run().phase).toBe('unbegun');
  });

  test('a disk that cannot write is said, and trying again begins it', async () => {
    const one = talk({ sheet, person: 'Ana' }, newWorld({ fault: 'the disk is full.' }));
    await one.hearAll('');
    expect(one.answer()).toBe('the disk is full.');
    delete one.world.fault;
    await one.hearAll('');
    expect(one.run().phase).toBe('open');
  });
});

describe('a lot', () => {
  test.each(['600', '600.1', '-3', '1,5', '600 g', '1 1/2 cups', '1 lb 2 oz', '12.'])(
    'is never %s, which reads as a quantity',
    async line => {
      const one = await begun('');
      await expectNothing(one, line);
      expect(one.answer()).toContain(`lot ${line}`);
    },
  );

  test.each(['stretch', 'Net', 'take back', 'yes'])(
    'is never %s, which means something at another question',
    async line => {
      const one = await begun('');
      await expectNothing(one, line);
      expect(one.answer()).toContain(`lot ${line}`);
    },
  );

  test.each([
    ['lot 12.5', '12.5'],
    ['lot leave', 'leave'],
    ['lot stretch', 'stretch'],
    ['lot 600 g', '600 g'],
    ['LOT  A 7', 'A 7'],
    ['L600', 'L600'],
    ['2027-03/4', '2027-03/4'],
  ])('is what %s names', async (line, lot) => {
    expect(lastEvent(await begun('', line))).toMatchObject({ type: 'lot-identified', lot });
  });

  test('is never the command leave', async () => {
    const one = await begun('', 'leave');
    expect(one.ending()?.status).toBe(4);
    expect(lastEvent(one)?.type).toBe('vessel-weighed');
  });

  test('that is known is confirmed by its last characters, three at least', async () => {
    const known = await weighing('500', 'lot S-2', 'lot S-2291');
    expect(lastEvent(known)).toMatchObject({ lot: 'S-2291' });
    const again = sheet.replace(
      '      - hold: 10 min\n        for: Rest.\n',
      '      - add: soda\n        amount: 1 g\n',
    );
    const one = talk({ sheet: again, person: 'Ana' });
    await one.hearAll('', '', 'S-2291', '600', 'A-1', '400');
    expect(one.question().ask).toContain('S-2291');
    // 291 reads as a weight, and is the end of the known lot all the same.
    await one.hearAll('291');
    expect(lastEvent(one)).toMatchObject({ type: 'lot-identified', lot: 'S-2291' });
  });

  test('that runs out is followed by another one in the middle of the line', async () => {
    const one = await weighing('250', 'lot S-3', '350');
    expect(one.run()).toMatchObject({
      steps: [{ pours: [{ lot: 'S-2291' }, { lot: 'S-3' }] }, {}, {}],
    });
  });
});

describe('a reading', () => {
  test('is answered with what is in and what stands on the scale', async () => {
    const one = await weighing('600.1');
    expect(one.answer()).toContain('600.1 g net, 900.1 g gross');
  });

  test('is echoed before it counts', async () => {
    const one = await weighing();
    expect(one.echo('600')).toBe('600.0 g · in · right on target');
    expect(one.echo('606.1')).toBe('606.1 g · OVER · 6.1 g over target');
    expect(one.echo('note')).toBeUndefined();
  });

  test.each(['soda', 'please', '?', 'tarred'])('is not %s, which is answered', async line => {
    const one = await weighing();
    await expectNothing(one, line);
    expect(one.answer()).toContain(line);
  });

  test('is not an empty line', async () => {
    await expectNothing(await weighing(), '', '   ');
  });

  test.each([
    ['net', ['600']],
    ['gross', ['900']],
    ['cup', ['600']],
    ['difference', ['1500', '900']],
  ] as const)('can be taken in the way %s', async (way, lines) => {
    const one = await weighing('net', 'gross', way, ...lines);
    expect(lastEvent(one)).toMatchObject({ type: 'reading-taken', way, judged: { net: '600' } });
  });

  test('by difference goes on with another container or another lot', async () => {
    const one = await weighing('difference', '500', '200', 'tare', '400', '200', 'lot S-3', '300');
    expect(one.question().kind).toBe('after');
    await one.hearAll('200');
    expect(lastEvent(one)).toMatchObject({ lot: 'S-3', judged: { total: '600', verdict: 'in' } });
  });
});

describe('an over-pour', () => {
  test('shows what can be done, and takes no further reading', async () => {
    const one = await weighing('625');
    expect(one.question().kind).toBe('over');
    expect(one.question().commands.map(({ word }) => word)).toEqual(
      expect.arrayContaining(['take back', 'accept', 'mistyped', 'scrap']),
    );
    await expectNothing(one, '660', '');
  });

  test('is taken back', async () => {
    const one = await weighing('655', 'take back', '600');
    expect(lastEvent(one)).toMatchObject({ type: 'taken-back', lifted: '55' });
  });

  test('asks for a better number when the one typed cannot be', async () => {
    const one = await weighing('655', 'take back', '660');
    expect(one.question().kind).toBe('amend');
    await one.hearAll('600');
    expect(lastEvent(one)?.type).toBe('taken-back');
  });

  test('goes back to its choices when accepting would break a limit', async () => {
    const one = await weighing('665', 'accept', 'mixed in well');
    expect(one.answer()).toContain('62.00 %');
    expect(one.question().kind).toBe('over');
    await one.hearAll('take back', '600');
    expect(lastEvent(one)?.type).toBe('taken-back');
  });

  test('was only mistyped', async () => {
    const one = await weighing('655', 'mistyped', '605', 'two digits swapped');
    expect(lastEvent(one)).toMatchObject({ type: 'amended', reason: 'two digits swapped' });
    expect(one.question().kind).toBe('lot');
  });

  test('asks again for the right number when that is none', async () => {
    const one = await weighing('655', 'mistyped', 'six hundred');
    expect(one.answer()).toContain('not a reading');
    expect(one.question().kind).toBe('amend');
  });
});

describe('amend', () => {
  const done = ['600', 'A-1', '400', ''] as const;

  test('lists the readings that count, and puts one right with its reason', async () => {
    const one = await weighing(...done);
    expect(one.question().kind).toBe('hold-running');
    await one.hearAll('amend');
    expect(one.question().ask).toContain('6: Acid 400.0 g; 4: Soda 600.0 g');
    await one.hearAll('4 604,5', 'misread the display');
    expect(lastEvent(one)).toMatchObject({
      type: 'amended',
      amends: 4,
      reading: { typed: '604,5' },
      judged: { total: '604.5', verdict: 'in' },
    });
    expect(one.question().kind).toBe('hold-running');
  });

  test('takes number and value at once, and asks what is to be done about the line', async () => {
    const one = await weighing(...done, 'amend 4 655', 'misread the display');
    expect(one.question().kind).toBe('over');
  });

  test('says why it cannot be', async () => {
    const one = await weighing();
    await expectNothing(one, 'amend');
    expect(one.answer()).toContain('no reading that could be put right');
    await expectNothing(one, 'amend 2 600');
    expect(one.answer()).toContain('Number 2 is no reading');
    await one.hearAll('600');
    await expectNothing(one, 'amend 4');
    expect(one.answer()).toContain('Type the number of the reading');
    await expectNothing(one, 'amend 4 lots', 'back');
  });

  test('asks for a reason to keep what was emptied out already', async () => {
    const emptied = sheet.replace(
      '      - hold',
      '      - do: Press.\n        empties: bowl\n      - hold',
    );
    const one = talk({ sheet: emptied, person: 'Ana' });
    await one.hearAll('', '', 'S-1', '600', 'A-1', '400', '', 'amend 4 655', 'misread the display');
    expect(one.question()).toMatchObject({ kind: 'gone', step: 1 });
    expect(one.question().ask).toContain('655.0 g went in, over the window 594.0 g to 606.0 g');
    await expectNothing(one, '600', '');
    await one.hearAll('accept', 'pressed already');
    expect(lastEvent(one)).toMatchObject({ type: 'accepted', what: 'over' });
    expect(one.question().kind).toBe('hold');
  });
});

describe('a pending question', () => {
  test.each([
    ['scrap', 'reason'],
    ['pause', 'reason'],
    ['accept', 'reason'],
  ])('after %s, back changes nothing', async (line, kind) => {
    const one = await weighing();
    const before = countOf(one);
    await one.hearAll(line);
    expect(one.question().kind).toBe(kind);
    await one.hearAll('back');
    expect(one.question().kind).toBe('reading');
    expect(countOf(one)).toBe(before);
  });

  test('for a reason asks again when it says nothing', async () => {
    const one = await weighing('scrap', '.');
    expect(one.question().kind).toBe('reason');
    await one.hearAll('bowl fell');
    expect(one.run()).toMatchObject({ phase: 'closed', outcome: 'rejected', reason: 'bowl fell' });
  });

  test('about a finished pour that looks misread names yes and no', async () => {
    const one = await weighing('60', 'accept');
    const { kind, commands } = one.question();
    expect(kind).toBe('slip');
    expect(commands.map(({ word }) => word)).toEqual(['yes', 'no', 'back', 'help']);
    await one.hearAll('no');
    expect(one.question().kind).toBe('reason');
  });

  test('about an amount far off is not about a vessel', async () => {
    const adjusting = sheetText([
      '      - add: acid',
      '      - adjust: acid\n        most: 8 g\n        until: it is right\n      - add: acid',
    ]);
    const one = talk({ sheet: adjusting, person: 'Ana' });
    await one.hearAll('', '300', 'S-2291', '600', 'A-1', '80 g');
    expect(one.question().kind).toBe('far-off');
    await one.hearAll('yes');
    expect(lastEvent(one)).toMatchObject({ type: 'adjusted', typed: '80 g' });
  });

  test('about a tare far off the sheet’s takes yes, or back', async () => {
    const one = await begun('350');
    expect(one.question().kind).toBe('vessel-far-off');
    await expectNothing(one, 'no');
    await one.hearAll('back');
    expect(one.question().kind).toBe('vessel');
    await one.hearAll('350', 'yes');
    expect(lastEvent(one)).toMatchObject({ type: 'vessel-weighed', tare: '350' });
  });
});

describe('help', () => {
  test.each([
    ['begin', []],
    ['vessel', ['']],
    ['lot', ['', '']],
    ['reading', ['', '', 'S-1']],
    ['over', ['', '', 'S-1', '700']],
    ['reason', ['', '', 'S-1', 'scrap']],
  ] as const)('at %s lists every word that works', async (kind, lines) => {
    const one = talk({ sheet, person: 'Ana' });
    await one.hearAll(...lines);
    expect(one.question().kind).toBe(kind);
    await expectNothing(one, 'help');
    const said = one.answer();
    for (const { word } of one.question().commands) expect(said).toContain(`${word}: `);
  });
});

describe('everywhere', () => {
  test('a note, a turn and another person work', async () => {
    const one = await weighing('note window open');
    expect(lastEvent(one)).toMatchObject({ type: 'noted', text: 'window open' });
    await one.hearAll('hand over Bea', 'note hers');
    expect(eventsOf(one.run()).at(-1)?.by).toBe('Bea');
    await expectNothing(one, 'turn Cellar');
    expect(one.answer()).toContain('Base');
  });

  test('a pause holds everything but itself', async () => {
    const one = await weighing('pause', 'lunch break');
    expect(one.question().kind).toBe('paused');
    await expectNothing(one, '600', '');
    await one.hearAll('resume');
    expect(one.question().kind).toBe('reading');
  });

  test('what was not written is not lost: the same answer works once the disk does', async () => {
    const one = await weighing();
    one.world.fault = 'the disk is full.';
    await expectNothing(one, '600');
    expect(one.answer()).toContain('the disk is full.');
    await one.hearAll('accept', 'bag is empty');
    expect(one.question().kind).toBe('reason');
    delete one.world.fault;
    await one.hearAll('bag is empty');
    expect(lastEvent(one)).toMatchObject({ type: 'accepted', reason: 'bag is empty' });
  });
});

describe('leaving', () => {
  test('before the batch leaves nothing behind', () => {
    const one = talk({ sheet, person: 'Ana' });
    expect(one.leave()).toEqual({ status: 4, text: 'Left. Nothing was begun.' });
  });

  test('says how to go on', async () => {
    const one = await weighing();
    const ending = one.leave();
    expect(ending.status).toBe(4);
    expect(ending.text).toContain('tarebook resume INV-2027-001');
    expect(ending.text).toContain('step 1 of 3');
    const again = talk({}, one.world);
    expect(again.question().kind).toBe('reading');
  });

  test('a closed batch says that it is to be signed', async () => {
    const one = await weighing('scrap', 'bowl fell', 'leave');
    expect(one.ending()).toMatchObject({ status: 4 });
    expect(one.ending()?.text).toContain('tarebook sign INV-2027-001');
  });
});

describe('signing', () => {
  test('asks for the passphrase until it is right', async () => {
    const world = newWorld({ keys: new Map([['Ana', 'correct horse']]) });
    const one = talk({ sheet, person: 'Ana' }, world);
    await one.hearAll('', '', 'scrap', 'bowl fell');
    expect(one.question()).toMatchObject({ kind: 'passphrase', field: 'secret' });
    await one.hearAll('wrong horse');
    expect(one.question().kind).toBe('passphrase');
    expect(world.signed).toEqual([]);
    await one.hearAll('correct horse');
    expect(world.signed).toEqual(['INV-2027-001 made by Ana']);
    expect(one.leave().status).toBe(0);
  });

  test('a new passphrase is typed twice and has eight characters', async () => {
    const one = await weighing('scrap', 'bowl fell', 'short');
    expect(one.question().kind).toBe('new-passphrase');
    await one.hearAll('long enough', 'long enuogh');
    expect(one.question().kind).toBe('new-passphrase');
    await one.hearAll('long enough', 'long enough');
    expect(one.world.signed).toHaveLength(1);
  });

  test('is done by the person who had the batch last', async () => {
    const one = await weighing('hand over Bea', 'scrap', 'bowl fell', 'long enough', 'long enough');
    expect(one.world.signed).toEqual(['INV-2027-001 made by Bea']);
  });
});
