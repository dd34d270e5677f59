import { describe, expect, test } from 'vitest';
import type { RunEvent } from '../../src/core/run/event.ts';
import type { Intent } from '../../src/core/run/intent.ts';
import { unbegun } from '../../src/core/run/state.ts';
import type { ChainedFile } from '../../src/workshop/chained-file.ts';
import { createSession } from '../../src/workshop/session.ts';
import { doAll, saltSteps } from '../helpers/batch.ts';
import { saltSheet } from '../helpers/salt-sheet.ts';

// Invented data throughout.
const begin: Intent = {
  type: 'begin',
  batch: 'INV-2027-001',
  practice: false,
  program: 'tarebook 0',
  sheet: saltSheet,
  size: { by: 'sheet' },
  scales: [],
};

const sessionOn = (append: ChainedFile['append']) => {
  let ms = Date.UTC(2027, 2, 4, 8);
  const now = () => {
    ms += 1000;
    return { epochMs: ms, offset: 60 };
  };
  return createSession({ run: unbegun, file: { append }, now, by: 'Ana' });
};

const paper = () => {
  const lines: Readonly<Record<string, unknown>>[] = [];
  const append: ChainedFile['append'] = values => {
    lines.push(...values);
    return { ok: true, value: true };
  };
  return { lines, append };
};

test('what is done is on the disk, in the state, and told, in that order', () => {
  const seen: string[] = [];
  const session = sessionOn(values => {
    seen.push(`written while ${session.state().phase}: ${values.map(line => line['type']).join()}`);
    return { ok: true, value: true };
  });
  session.subscribe(() => seen.push(`told while ${session.state().phase}`));
  expect(session.dispatch(begin)).toMatchObject({
    kind: 'done',
    events: [{ seq: 1, at: '2027-03-04T09:00:01.000+01:00', by: 'Ana', event: { type: 'begun' } }],
  });
  expect(seen).toEqual(['written while unbegun: begun', 'told while open']);
});

test('events are numbered on and carry the person who goes on', () => {
  const { lines, append } = paper();
  const session = sessionOn(append);
  doAll(session, [begin, { type: 'hand-over', to: 'Ben' }, { type: 'note', text: 'Ben is here' }]);
  expect(lines.map(line => [line['seq'], line['by'], line['type']])).toEqual([
    [1, 'Ana', 'begun'],
    [2, 'Ana', 'handed-over'],
    [3, 'Ben', 'noted'],
  ]);
});

test('a refused intent writes nothing, changes nothing and tells nobody', () => {
  const { lines, append } = paper();
  const session = sessionOn(append);
  doAll(session, [begin]);
  const before = session.state();
  let told = 0;
  session.subscribe(() => {
    told += 1;
  });
  expect(session.dispatch({ type: 'tick', step: 99 }).kind).toBe('refused');
  expect(session.state()).toBe(before);
  expect([lines.length, told]).toEqual([1, 0]);
});

describe('when the disk refuses', () => {
  test('the state is unchanged, nobody is told, and the same intent can be tried again', () => {
    const { lines, append } = paper();
    let isFull = false;
    const session = sessionOn(values =>
      isFull ? { ok: false, why: 'The disk is full.' } : append(values),
    );
    doAll(session, [begin, saltSteps[0]!]);
    const before = session.state();
    let told = 0;
    session.subscribe(() => {
      told += 1;
    });
    isFull = true;
    expect(session.dispatch(saltSteps[1]!)).toEqual({
      kind: 'not-written',
      why: 'The disk is full.',
    });
    expect(session.state()).toBe(before);
    expect(told).toBe(0);
    isFull = false;
    doAll(session, [saltSteps[1]!]);
    expect(lines).toHaveLength(3);
    expect(told).toBe(1);
  });
});

test('what could not be read back is not written', () => {
  const { lines, append } = paper();
  const session = sessionOn(append);
  doAll(session, [begin]);
  const outcome = session.dispatch({ type: 'hand-over', to: 'Ben\u202e' });
  expect(outcome.kind).not.toBe('done');
  expect(lines).toHaveLength(1);
});

test('who stops listening hears nothing more', () => {
  const { append } = paper();
  const session = sessionOn(append);
  let told = 0;
  const stop = session.subscribe(() => {
    told += 1;
  });
  doAll(session, [begin]);
  stop();
  doAll(session, [saltSteps[0]!]);
  expect(told).toBe(1);
});

test('the events that come back are those of the state', () => {
  const session = sessionOn(paper().append);
  const types: RunEvent['type'][] = [];
  for (const intent of [begin, ...saltSteps]) {
    const outcome = session.dispatch(intent);
    if (outcome.kind === 'done') types.push(...outcome.events.map(each => each.event.type));
  }
  const run = session.state();
  if (run.phase === 'unbegun') throw new Error('not begun');
  expect(run.events.map(each => each.event.type)).toEqual(types);
});
