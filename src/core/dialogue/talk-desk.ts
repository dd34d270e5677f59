/** Lines that are heard before a batch begins and after it is closed. */
import { readName } from '../run/decide-batch.ts';
import { readReason } from '../run/decision.ts';
import type { Bench } from './bench.ts';
import { needsReason, readScaleLine, sayFindings } from './desk.ts';
import type { KeyAct } from './key-act.ts';
import { sayEvents } from './say.ts';
import { good, mend, plain, stop } from './saying.ts';
import {
  again,
  batchMode,
  deskMode,
  helpFor,
  leaveTalk,
  type Mode,
  questionOf,
  runOf,
  settle,
  type Talk,
} from './talk.ts';
import { dispatchAll } from './talk-run.ts';

/** The first question before a batch is begun, with what its plan finds. */
export const toDesk = (bench: Bench, talk: Talk): Talk => {
  const mode = deskMode(bench);
  return settle(talk, mode, ...(mode.at === 'begin' ? sayFindings(bench) : []));
};

const hearWho = (bench: Bench, talk: Talk, line: string): Talk => {
  const person = readName(line);
  return person === undefined
    ? again(talk, mend('That is not a name. Type letters, for example Ines Okafor.'))
    : toDesk(bench, { ...talk, person });
};

const hearScale = (bench: Bench, talk: Talk, entered: number, line: string): Talk => {
  if (line === '') return settle(talk, { at: 'begin' }, ...sayFindings(bench));
  const scale = readScaleLine(line);
  if (scale === undefined)
    return again(talk, mend('Type a name, the capacity and the smallest step: big 10 kg x 0.1 g.'));
  const done = bench.addScale(scale, talk.person ?? '');
  return done.ok
    ? settle(talk, { at: 'scales', entered: entered + 1 }, good(`${scale.name} is entered.`))
    : again(talk, mend(done.why));
};

const begin = (bench: Bench, talk: Talk, scaleReason?: string): Talk => {
  if (bench.opening === undefined || talk.person === undefined) return talk;
  const begun = bench.begin(bench.opening, bench.scales(), talk.person, scaleReason);
  if (!begun.ok) return again(talk, stop(begun.why));
  const run = begun.value.state();
  const events = run.phase === 'unbegun' ? [] : run.events;
  const cautions = bench.opening.sheet.cautions.map(text => plain(text));
  return settle(
    { ...talk, session: begun.value },
    { at: 'run' },
    ...sayEvents(run, events),
    ...cautions,
  );
};

const hearBegin = (bench: Bench, talk: Talk, line: string): Talk => {
  if (line !== '') return again(talk, mend('Press Enter alone to begin, or type leave.'));
  return needsReason(bench)
    ? settle(talk, { at: 'begin-reason' }, ...sayFindings(bench))
    : begin(bench, talk);
};

const hearBeginReason = (bench: Bench, talk: Talk, line: string): Talk => {
  const reason = readReason(line);
  return reason === undefined
    ? again(talk, mend('Type why, in a few words, or leave.'))
    : begin(bench, talk, reason);
};

const sign = async (bench: Bench, talk: Talk, act: KeyAct, passphrase: string): Promise<Talk> => {
  const run = runOf(talk);
  if (run.phase === 'unbegun') return talk;
  const signed = await bench.sign(run.batch, act.name, passphrase, 'made by');
  return signed.ok
    ? settle(
        talk,
        {
          at: 'finished',
          text: `${run.batch} is signed. The record is ${signed.value}. tarebook verify ${run.batch} checks it; tarebook export ${run.batch} --as html --to ${run.batch}.html makes a page to print.`,
        },
        good('Signed.'),
      )
    : settle(talk, { at: 'passphrase', act }, mend(signed.why));
};

const witness = async (
  bench: Bench,
  talk: Talk,
  act: KeyAct & { readonly kind: 'witness' },
  passphrase: string,
): Promise<Talk> => {
  const { step, name } = act;
  const signed = await bench.witness(step, name, passphrase);
  if (!signed.ok) return settle(talk, { at: 'passphrase', act }, mend(signed.why));
  const intent = { type: 'witness', step, witness: name, ...signed.value } as const;
  return dispatchAll(bench, talk, { kind: 'intents', intents: [intent] });
};

const withKey = (bench: Bench, talk: Talk, act: KeyAct, passphrase: string): Promise<Talk> =>
  act.kind === 'sign' ? sign(bench, talk, act, passphrase) : witness(bench, talk, act, passphrase);

const hearNewPassphrase = (talk: Talk, act: KeyAct, line: string): Talk =>
  line.length < 8
    ? again(talk, mend('Eight characters at least.'))
    : settle(talk, { at: 'repeat-passphrase', act, first: line });

const hearRepeat = async (
  bench: Bench,
  talk: Talk,
  { act, first }: Mode & { readonly at: 'repeat-passphrase' },
  line: string,
): Promise<Talk> => {
  if (line !== first)
    return settle(
      talk,
      { at: 'new-passphrase', act },
      mend('The two were not the same. Choose again.'),
    );
  const enrolled = await bench.enrol(act.name, line);
  return enrolled.ok
    ? withKey(bench, talk, act, line)
    : settle(talk, { at: 'new-passphrase', act }, mend(enrolled.why));
};

const hearPassphrase = (
  bench: Bench,
  talk: Talk,
  act: KeyAct,
  line: string,
): Talk | Promise<Talk> =>
  act.kind === 'witness' && line.trim().toLowerCase() === 'back'
    ? settle(talk, batchMode(bench, talk))
    : withKey(bench, talk, act, line);

/** What follows from a line before the batch is begun, or after it is closed. */
export const hearDesk = async (bench: Bench, talk: Talk, line: string): Promise<Talk> => {
  const { mode } = talk;
  const word = line.trim().toLowerCase();
  if (word === 'leave') return leaveTalk(talk);
  if (word === 'help') return again(talk, ...helpFor(questionOf(bench, talk)));
  switch (mode.at) {
    case 'who':
      return hearWho(bench, talk, line);
    case 'scales':
      return hearScale(bench, talk, mode.entered, line.trim());
    case 'begin':
      return hearBegin(bench, talk, line.trim());
    case 'begin-reason':
      return hearBeginReason(bench, talk, line);
    case 'new-passphrase':
      return hearNewPassphrase(talk, mode.act, line);
    case 'repeat-passphrase':
      return hearRepeat(bench, talk, mode, line);
    case 'passphrase':
      return hearPassphrase(bench, talk, mode.act, line);
    case 'run':
    case 'finished':
    case 'ended':
      return leaveTalk(talk);
  }
};
