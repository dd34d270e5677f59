/** Questions around an addition: vessel, lot, reading. */

import type { Addition } from '../plan/plan.ts';
import { targetOf } from '../plan/window.ts';
import { isPositive, isZero, subtract } from '../quantity/quantity.ts';
import { type Way, ways } from '../run/event.ts';
import { additionInHand, canPutLater, stepState, vesselNow } from '../run/focus.ts';
import { presentPour } from '../run/judge.ts';
import { isPartDone } from '../run/pours.ts';
import type { AdditionState, OpenRun } from '../run/state.ts';
import { everywhere } from './commands.ts';
import type { Command, Question } from './conversation.ts';
import {
  grossToExpect,
  leftToAdd,
  showOn,
  usualWay,
  wayText,
  weighingInHand,
  windowText,
} from './explain.ts';
import { acceptWord, mistyped, question } from './question.ts';

const otherWays = (way: Way): readonly Command[] =>
  ways.filter(each => each !== way).map(each => ({ word: each, does: `reads ${wayText[each]}` }));

const howToRead = (run: OpenRun, n: number, way: Way): string => {
  const found = additionInHand(run, n);
  const gross = found && grossToExpect(run, found.addition, found.state);
  switch (way) {
    case 'net':
      return 'Tare the scale, pour, and type the display.';
    case 'gross':
      return `Pour, and type all that the scale shows${found && gross ? `, about ${showOn(found.addition, gross)}` : ''}.`;
    case 'cup':
      return 'Tare the empty cup, weigh into it, type the display, then tip it in.';
    case 'difference':
      return 'Put the container on the scale and type the display before you pour.';
  }
};

const whatToWeigh = (addition: Addition, state: AdditionState, into: string): string => {
  const left = showOn(addition, leftToAdd(addition, state));
  const weighing = weighingInHand(addition, state);
  if (weighing !== undefined) {
    const { n, of, net } = weighing;
    const now = showOn(addition, subtract(targetOf(weighing.addition), net));
    return `Weighing ${n} of ${of}: ${now} of ${addition.name} ${into}. In all ${left} to go.`;
  }
  return isZero(state.total)
    ? `Weigh ${left} of ${addition.name} ${into}.`
    : `Under. Add ${left} more of ${addition.name}.`;
};

const pourOn: Readonly<Record<Way, string>> = {
  net: 'Pour more without taring, and type the display.',
  gross: 'Pour more, and type all that the scale shows.',
  cup: 'Pour more into the same cup, and type the display. If it was tipped in, type tare first.',
  difference: 'Pour more, and put the container back on the scale.',
};

// Another way of reading starts from what is in already.
const howToPourOn = ({ lastReading }: AdditionState, way: Way): string =>
  lastReading?.way === way ? pourOn[way] : `What is in counts. ${newPourOn[way]}`;

const newPourOn: Readonly<Record<Way, string>> = {
  net: 'Tare the scale, pour more, and type the display.',
  gross: 'Pour more, and type all that the scale shows.',
  cup: 'Tare an empty cup, weigh into it, type the display, then tip it in.',
  difference: 'Put the container on the scale and type the display before you pour.',
};

/** The reading that an addition waits for, in the way chosen for it. */
export const askReading = (run: OpenRun, n: number, way: Way): Question => {
  const found = additionInHand(run, n);
  if (found === undefined) throw new RangeError(`step ${n} is no addition`);
  const { addition, state } = found;
  const begun = !isZero(state.total);
  const scale = addition.onScale?.scale.name ?? 'the scale';
  const into =
    addition.place === 'cup'
      ? `in a cup on ${scale}`
      : `into ${vesselNow(run, addition.vessel)} on ${scale}`;
  const what = whatToWeigh(addition, state, into);
  const commands: readonly Command[] = [
    ...otherWays(way).filter(({ word }) => word !== 'gross' || addition.place === 'vessel'),
    ...(begun ? [{ word: 'tare', does: 'the scale was tared: what comes now adds to it' }] : []),
    { word: 'lot', does: 'goes on with another lot: lot NUMBER' },
    ...(!begun && canPutLater(run, n) ? [{ word: 'later', does: 'weighs another one first' }] : []),
    ...(state.lastReading === undefined ? [] : [mistyped]),
    acceptWord('goes on with it as it is, with a reason'),
    ...everywhere,
  ];
  const isPouring =
    isPositive(presentPour(state).net) && !isPartDone(state) && way !== 'difference';
  const how = isPouring ? howToPourOn(state, way) : howToRead(run, n, way);
  return question(
    'reading',
    `${what} ${how} Window ${windowText(weighingInHand(addition, state)?.addition ?? addition)}.`,
    'quantity',
    {
      step: n,
      way,
      commands,
    },
  );
};

export const askAfter = (run: OpenRun, n: number): Question => {
  const found = additionInHand(run, n);
  const left =
    found === undefined ? '' : ` ${showOn(found.addition, leftToAdd(found.addition, found.state))}`;
  return question(
    'after',
    `Pour${left}, put the container back on the scale and type the display.`,
    'quantity',
    {
      step: n,
      way: 'difference',
      commands: [
        { word: 'tare', does: 'goes on with another container' },
        { word: 'lot', does: 'goes on with another lot: lot NUMBER' },
        mistyped,
        acceptWord('goes on with it as it is, with a reason'),
        ...everywhere,
      ],
    },
  );
};

export const askLot = (
  run: OpenRun,
  n: number,
  material: string,
  known: string | undefined,
): Question => {
  const name = run.sheet.materials.get(material)?.name ?? material;
  const usual =
    known === undefined ? '' : ` The last one was ${known}: its last three characters will do.`;
  const isAddition = stepState(run, n).kind === 'addition';
  return question('lot', `Take ${name}. Type or scan its lot.${usual}`, 'text', {
    step: n,
    commands: [
      { word: 'lot', does: 'for a lot that reads like a weight or a command: lot 12.5' },
      ...(isAddition && canPutLater(run, n)
        ? [{ word: 'later', does: 'weighs another one first' }]
        : []),
      ...(isAddition
        ? [acceptWord('goes on without it, with a reason')]
        : [{ word: 'done', does: 'nothing is needed' }]),
      ...everywhere,
    ],
  });
};

export const askVessel = (n: number, name: string, tare: string | undefined): Question =>
  question(
    'vessel',
    tare === undefined
      ? `Put ${name} on the scale, empty, and type the display.`
      : `Put ${name} on the scale, empty. Type the display, or press Enter for ${tare}.`,
    'quantity',
    { step: n, ...(tare === undefined ? {} : { enter: `takes the tare of the sheet, ${tare}` }) },
  );

/** The way of reading in hand: the one chosen, else the one used last for this addition, else the usual one. */
export const wayInHand = (run: OpenRun, n: number, chosen: Way | undefined): Way => {
  const found = additionInHand(run, n);
  if (chosen !== undefined) return chosen;
  return found === undefined ? 'net' : (found.state.lastReading?.way ?? usualWay(found.addition));
};

export const askResidue = (n: number): Question =>
  question(
    'residue',
    'Tip the cup in, put it back on the scale and type what still shows. 0 for nothing.',
    'quantity',
    {
      step: n,
      way: 'cup',
      commands: [mistyped, ...everywhere],
    },
  );
