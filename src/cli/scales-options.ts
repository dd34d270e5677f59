import { readScaleLine } from '../core/dialogue/desk.ts';
import type { AccuracyClass, Scale } from '../core/plan/plan.ts';
import { readMass } from '../core/quantity/amount.ts';
import { isLess, isNegative, type Mass } from '../core/quantity/quantity.ts';
import { readReading } from '../core/quantity/reading.ts';
import type { TestLoad, TestMass } from '../core/scale/check-scale.ts';
import { testMassClasses } from '../core/scale/test-mass.ts';
import { defined } from '../core/sheet/present.ts';
import { preference } from './preferences.ts';
import { readBy } from './read-by.ts';
import { usage } from './stop.ts';
import type { WorkshopOptions } from './the-workshop.ts';

interface EntryOptions extends WorkshopOptions {
  readonly by?: string;
}

export interface AddOptions extends EntryOptions {
  readonly interval?: string;
  readonly class?: AccuracyClass;
  readonly least?: string;
}

export interface CheckOptions extends EntryOptions {
  readonly mass?: readonly string[];
  readonly repeat?: string;
}

export interface RetireOptions extends EntryOptions {
  readonly reason: string;
}

/** Who makes an entry: the name given, else the one used last. Stops with status 2. */
export const readWho = ({ by }: EntryOptions): string => {
  const typed = by ?? preference('person');
  if (typed === undefined)
    return usage('Add --by and your name: the register keeps who entered it.');
  return readBy(typed);
};

const massOption = (option: string, text: string | undefined): Mass | undefined =>
  text === undefined
    ? undefined
    : (readMass(text) ?? usage(`${option} takes a mass with its unit, like 1 g, not ${text}.`));

/** The scale that `scales add` states. Stops with status 2. */
export const readScale = (text: string, options: AddOptions): Scale => {
  const scale =
    readScaleLine(text) ??
    usage(
      `A scale is its name, its capacity and its smallest step, like "big 10 kg x 0.1 g", not ${text}.`,
    );
  const leastLoad = massOption('--least', options.least);
  if (leastLoad !== undefined && !isLess(leastLoad, scale.capacity))
    return usage('--least is the least load of the scale, below its capacity.');
  return {
    ...scale,
    ...defined({
      interval: massOption('--interval', options.interval),
      accuracyClass: options.class,
      leastLoad,
    }),
  };
};

const readShown = (text: string, scale: Scale): Mass => {
  const reading = readReading(text, scale);
  if (!reading.ok) return usage(`${text.trim()}: ${reading.message} ${reading.instead}`);
  return isNegative(reading.mass)
    ? usage(`${text.trim()}: that is below nothing. Set the scale to zero first.`)
    : reading.mass;
};

const readTestMass = (text: string): TestMass => {
  const [, amount = '', letters = ''] = /^(.*\S)\s+(\w+)$/.exec(text.trim()) ?? [];
  const nominal = readMass(amount);
  const massClass = testMassClasses.find(each => each === letters);
  return nominal === undefined || massClass === undefined
    ? usage(
        `--mass takes test masses with their class, and what the scale showed, like "500 g F2=499.9", not ${text}. Classes: ${testMassClasses.join(', ')}.`,
      )
    : { nominal, massClass };
};

const readLoad = (text: string, scale: Scale): TestLoad => {
  const [masses = '', shown, ...more] = text.split('=');
  return shown === undefined || more.length > 0
    ? usage(`--mass takes what was put on and what was shown, like "500 g F2=499.9", not ${text}.`)
    : { masses: masses.split('+').map(readTestMass), shown: readShown(shown, scale) };
};

/** What was put on the scale and read from it. Stops with status 2. */
export const readCheck = (
  { mass = [], repeat = '' }: CheckOptions,
  scale: Scale,
): { readonly loads: readonly TestLoad[]; readonly repeat: readonly Mass[] } => {
  const texts = repeat.split(/[\s;]+/).filter(text => text !== '');
  if (mass.length === 0 && texts.length === 0)
    return usage('Put a test mass on and name it: --mass "500 g F2=499.9".');
  if (texts.length > 0 && texts.length < 10)
    return usage(`--repeat takes ten readings of one mass at least, not ${texts.length}.`);
  return {
    loads: mass.map(text => readLoad(text, scale)),
    repeat: texts.map(text => readShown(text, scale)),
  };
};
