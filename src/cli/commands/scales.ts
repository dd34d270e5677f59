import { harmlessLines } from '../../core/dialogue/harmless.ts';
import type { CheckVerdict, Scale } from '../../core/plan/plan.ts';
import { showGrams } from '../../core/quantity/show.ts';
import { readText } from '../../core/run/decision.ts';
import { checkClass } from '../../core/scale/accuracy-class.ts';
import { checkScale } from '../../core/scale/check-scale.ts';
import { minimumWeight, repeatabilityOf } from '../../core/scale/repeatability.ts';
import { quote } from '../../core/sheet/quote.ts';
import { enterScale, enterScaleCheck, retireScale } from '../../workshop/register.ts';
import type { Workshop } from '../../workshop/workshop.ts';
import { exitStatus } from '../exit-status.ts';
import {
  type AddOptions,
  type CheckOptions,
  type RetireOptions,
  readCheck,
  readScale,
  readWho,
} from '../scales-options.ts';
import { loadText, scalesJson, scalesTable } from '../scales-table.ts';
import { Stop, usage } from '../stop.ts';
import { orStop, scalesInUse, theWorkshop, type WorkshopOptions } from '../the-workshop.ts';

const print = (text: string): void => void process.stdout.write(`${harmlessLines(text)}\n`);

const scaleNamed = (workshop: Workshop, name: string): Scale => {
  const scales = scalesInUse(workshop);
  const scale = scales.find(each => each.name === name);
  if (scale !== undefined) return scale;
  const names = scales.map(each => quote(each.name)).join(', ');
  throw new Stop(
    exitStatus.missing,
    `There is no scale ${quote(name)} in use${names === '' ? '' : `; there are ${names}`}.`,
  );
};

/** Enters a scale, or what is known of it now. Status 1 where class, e and capacity cannot belong together. */
export const addScale = (text: string, options: AddOptions): number => {
  const scale = readScale(text, options);
  const who = readWho(options);
  const found = checkClass(scale);
  if (found !== undefined)
    throw new Stop(exitStatus.doesNotHold, `${found.message} ${found.instead}`);
  orStop(enterScale(theWorkshop(options, false), scale, who));
  print(`${scale.name} is entered.`);
  return exitStatus.good;
};

/** The scales in use, with their least loads and last checks. */
export const listScales = (options: WorkshopOptions & { readonly json?: boolean }): number => {
  const scales = scalesInUse(theWorkshop(options, false));
  print(options.json === true ? scalesJson(scales) : scalesTable(scales));
  return exitStatus.good;
};

const verdicts: Readonly<Record<CheckVerdict, string>> = {
  within: 'within its limits',
  doubtful: 'within or beyond its limits, the test masses cannot tell',
  beyond: 'beyond its limits',
};

/** Judges a scale by test masses, measures its repeatability, and keeps both. Status 1 where it is beyond its limits. */
export const checkScales = (name: string, options: CheckOptions): number => {
  const workshop = theWorkshop(options, false);
  const scale = scaleNamed(workshop, name);
  const { loads, repeat } = readCheck(options, scale);
  const who = readWho(options);
  const checked = loads.length === 0 ? undefined : checkScale(scale, loads);
  if (checked?.ok === false)
    throw new Stop(exitStatus.doesNotHold, `${checked.message} ${checked.instead}`);
  const repeatability = repeatabilityOf(repeat);
  orStop(
    enterScaleCheck(
      workshop,
      name,
      {
        loads,
        repeat,
        ...(checked && { verdict: checked.verdict }),
        ...(repeatability && { repeatability }),
      },
      who,
    ),
  );
  for (const load of checked?.loads ?? []) print(loadText(scale, load));
  if (repeatability !== undefined) {
    const least = minimumWeight(repeatability, scale.readability);
    print(
      `Repeatability: ${showGrams(repeatability, 4)} from ${repeat.length} readings; the least load by it is ${showGrams(least, 1)}.`,
    );
  }
  if (checked !== undefined) print(`${name}: ${verdicts[checked.verdict]}.`);
  return checked?.verdict === 'beyond' ? exitStatus.doesNotHold : exitStatus.good;
};

/** Takes a scale out of use, with a reason. */
export const retire = (name: string, options: RetireOptions): number => {
  const workshop = theWorkshop(options, false);
  scaleNamed(workshop, name);
  const reason = readText(options.reason);
  if (reason === undefined)
    return usage('--reason takes why the scale is out of use, in a few words.');
  orStop(retireScale(workshop, name, reason, readWho(options)));
  print(`${name} is out of use. What was weighed on it stays as it is.`);
  return exitStatus.good;
};
